/** The units of the cabinet file, kind by kind: each takes its model's values, then its own. */

import type { Cell, Sheet } from '../sheet.ts';
import { type Family, fitted, modelOf, numbersOf, placedFamilies, weight } from '../tables.ts';
import { asBranch, asLeaf, asWords, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, type Leaf, type Node, problemAt } from '../text/document.ts';
import { type FieldSpec, quantity } from '../text/field.ts';
import { cellsOf, type Model, type ModelShape, openModel, putCells } from '../text/model-file.ts';
import { listed } from '../text/nearest.ts';
import { besideFile } from '../text/paths.ts';
import { writeFlag, writeOwn } from './own-values.ts';

interface UnitNamed {
  readonly id: Leaf;
  readonly own: Branch | null;
}

/** The units of a kind, the model they share, and the order in which they are fitted. */
export interface ReadUnits {
  readonly ids: readonly Leaf[];
  /** The model of the kind, for units that a change adds: its file is read where no unit of the cabinet has it. */
  readonly blank: () => Model | null;
  readonly fill: readonly Leaf[];
}

/** What a model file of a kind of unit holds. */
export function unitShape(family: Family): ModelShape {
  return { model: modelOf[family], under: 'parameters', tables: { parameters: numbersOf(family) } };
}

/** `feeders`: names that a shelf may hang on. */
export function readUnits(
  file: string,
  root: Branch,
  family: Family,
  feeders: readonly string[],
  desk: Desk,
  sheet: Sheet,
): ReadUnits {
  const { problems } = desk;
  const entry = required(root, family, '', `model and units of the ${family}`, problems);
  const branch = entry === null ? null : asBranch(entry.node, family, problems);
  if (branch === null) return { ids: [], blank: () => null, fill: [] };
  const placed = placedFamilies.includes(family);
  refuseUnknownKeys(branch, ['model', 'units', ...(placed ? ['fill'] : [])], family, problems);
  const fillEntry = branch.entries.get('fill');
  const fill = fillEntry === undefined ? [] : asWords(fillEntry.node, `${family}.fill`, problems);
  const held = required(branch, 'units', family, 'the names of the units', problems);
  const common = branch.entries.get('model');
  const commonName = common === undefined ? null : asLeaf(common.node, `${family}.model`, problems);
  const table = numbersOf(family);
  const shape = unitShape(family);
  const opened = new Map<string, Model | null>();
  const modelNamed = (name: Leaf, path: string): Model | null => {
    const target = besideFile(file, name.text);
    if (!opened.has(target)) opened.set(target, openModel(file, name, shape, path, desk));
    return opened.get(target) ?? null;
  };
  const cells = new Map<Model | null, ReadonlyMap<string, Cell>>();
  const named = held === null ? [] : namesOf(held.node, family, desk);
  const demanded = demandedKeys(family, feeders);
  for (const { id, own } of named) {
    const path = joined(family, id.text);
    const extra = [...Object.keys(demanded), ...(placed ? ['fitted'] : [])];
    if (own !== null) refuseUnknownKeys(own, ['model', ...extra, ...Object.keys(table)], path, problems);
    const ownModel = own?.entries.get('model');
    const name = ownModel === undefined ? commonName : asLeaf(ownModel.node, `${path}.model`, problems);
    if (name === null) {
      const mend = `add model: … below ${family} or ${id.text}`;
      problems.push(problemAt(id.origin, path, 'no model', 'a model file', mend));
      continue;
    }
    const model = modelNamed(name, `${path}.model`);
    if (!cells.has(model)) cells.set(model, cellsOf(model, '', table));
    putCells(model, cells.get(model)!, path, sheet);
    // Most units state nothing of their own.
    if (own !== null)
      for (const [key, spec] of Object.entries(table)) writeOwn(own, key, path, quantity(spec), sheet);
    for (const [key, field] of Object.entries(demanded)) {
      if (writeOwn(own, key, path, field, sheet)) continue;
      const expected = field.kind === 'choice' ? `one of ${listed(field.of)}` : weight.means;
      const mend = `write ${id.text}: { ${key}: … }`;
      problems.push(problemAt(id.origin, joined(path, key), `no ${key}`, expected, mend));
    }
    if (placed) writeFlag(own, 'fitted', path, fitted, sheet);
  }
  const blank = (): Model | null => (commonName === null ? null : modelNamed(commonName, `${family}.model`));
  return { ids: named.map(({ id }) => id), blank, fill };
}

/** What the cabinet file itself must say of each unit of a kind. */
export function demandedKeys(
  family: Family,
  feeders: readonly string[],
): Readonly<Record<string, FieldSpec>> {
  if (family === 'shelves') return { feeder: { kind: 'choice', of: feeders, means: 'feeder of the shelf' } };
  if (family === 'sleds') return { weight: quantity(weight) };
  return {};
}

/** Units as a list of names, or as names with values of their own. */
function namesOf(node: Node, family: Family, desk: Desk): UnitNamed[] {
  const path = `${family}.units`;
  const named: UnitNamed[] =
    node.kind === 'branch'
      ? [...node.entries].map(([id, entry]) => ({
          id: { kind: 'leaf', text: id, origin: entry.keyOrigin },
          own:
            entry.node.kind === 'leaf' && entry.node.text === ''
              ? null
              : asBranch(entry.node, joined(family, id), desk.problems),
        }))
      : asWords(node, path, desk.problems).map((id) => ({ id, own: null }));
  const seen = new Set<string>();
  return named.filter(({ id }) => {
    const fresh = !seen.has(id.text);
    seen.add(id.text);
    const usable = /^[A-Za-z][\w-]*$/.test(id.text);
    if (fresh && usable) return true;
    const found = fresh ? `the name ${id.text}` : `${id.text} a second time`;
    const expected = 'names of letters, digits and -, each once';
    desk.problems.push(problemAt(id.origin, path, found, expected, 'give it another name'));
    return false;
  });
}
