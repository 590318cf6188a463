/**
 * Changes of the kind of a unit: it takes the values of another model, `trays.T6.model: models/tray-30kw.yaml`. They come
 * behind changes of places, so that they reach new units, and before every other one. What the cabinet file writes over
 * the unit's model stays; what it left to the model is that of the new one.
 */
import type { PlacedChange } from '../sections/run-fields.ts';
import { idsOf, type Structure } from '../sections/structure.ts';
import { unitShape } from '../sections/units.ts';
import { type Cell, modelNoteOf, type Sheet } from '../sheet.ts';
import { type Family, families, numbersOf } from '../tables.ts';
import type { Desk } from '../text/desk.ts';
import { problemAt } from '../text/document.ts';
import { openModel, putModel } from '../text/model-file.ts';
import { listed, nearestOr } from '../text/nearest.ts';
import { isUnitModel } from '../text/paths.ts';

/** A change with the path of the file that it names, from where the command was given. */
export interface NamedModel {
  readonly change: PlacedChange;
  readonly file: string;
}

export function isModelChange({ path }: { readonly path: string }): boolean {
  return isUnitModel(path) && (families as readonly string[]).includes(path.split('.')[0]!);
}

/** Every path of this kind. */
export function modelPaths(structure: Structure): readonly string[] {
  return families.flatMap((family) => idsOf(structure, family).map((id) => `${family}.${id}.model`));
}

/** Applies them in order; gives of each the file of the model that it takes the place of. What is wrong is noted in the sheet. */
export function changeModels(
  structure: Structure,
  named: readonly NamedModel[],
  desk: Desk,
  sheet: Sheet,
): ReadonlyMap<PlacedChange, string | null> {
  const before = new Map<PlacedChange, string | null>();
  for (const { change, file } of named) {
    const [family, id = ''] = change.path.split('.') as [Family, string];
    const ids = idsOf(structure, family);
    const unit = `${family}.${id}`;
    if (!ids.includes(id)) {
      const mend = nearestOr('name one of them', id, ids);
      sheet.problems.push(
        problemAt(change.origin, change.path, id, ids.length === 0 ? `no ${family}` : listed(ids), mend),
      );
      continue;
    }
    const name = { kind: 'leaf', text: file, origin: change.origin } as const;
    const model = openModel('', name, unitShape(family), change.path, desk);
    if (model === null) continue;
    before.set(change, sheet.models.get(unit)?.file ?? null);
    const own = ownCells(family, unit, sheet);
    putModel(model, '', numbersOf(family), unit, sheet);
    for (const [path, cell] of own) {
      const ofModel = sheet.cells.get(path);
      sheet.put(path, { ...cell, modelNote: ofModel === undefined ? null : modelNoteOf(ofModel) });
    }
  }
  return before;
}

/** What is written over the model of a unit. */
function ownCells(family: Family, unit: string, sheet: Sheet): readonly (readonly [string, Cell])[] {
  return Object.keys(numbersOf(family)).flatMap((key): [string, Cell][] => {
    const path = `${unit}.${key}`;
    const cell = sheet.cells.get(path);
    return cell !== undefined && cell.note === null && cell.origin !== null ? [[path, cell]] : [];
  });
}
