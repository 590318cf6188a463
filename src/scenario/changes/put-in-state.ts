/**
 * Puts parts into their states, last of all: whatever a file, a study or an option made of a value is that of a new part
 * at usual temperature, and age and temperature come on top of it. So a capacitance that is varied is aged as the
 * model's own would be, in whichever order the changes were asked for.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { type StateKindName, stateField, stateKindOf, stateNamed } from '../part-states.ts';
import type { PlacedChange } from '../sections/run-fields.ts';
import { asWritten, type Cell, groupPath, modelNoteOf, type Sheet } from '../sheet.ts';
import { families } from '../tables.ts';
import { problemAt } from '../text/document.ts';
import { bounded, readField } from '../text/field.ts';
import { listed, nearestOr } from '../text/nearest.ts';

/**
 * Of every change that some unit's state comes from in the end what it makes of the values it reaches:
 * `trays.capacitance 100 F → 80 F`; empty where that is nothing.
 */
export type StateEffects = ReadonlyMap<PlacedChange, string>;

/** Which change put a unit into its present state of each kind. */
type Standing = Map<string, Map<StateKindName, PlacedChange>>;

/** Later changes over earlier ones of their kind; age and temperature both count. */
export function putInState(changes: readonly PlacedChange[], sheet: Sheet): StateEffects {
  if (changes.every(({ path }) => stateKindOf(path) === null)) return new Map();
  const units = unitsIn(sheet);
  const standing: Standing = new Map();
  for (const change of changes) {
    const kind = stateKindOf(change.path);
    if (kind === null) continue;
    const target = change.path.slice(kind.length + 1);
    const hit = [...units].filter(([key, unit]) => unit === target || key.split('.')[0] === target);
    if (hit.length === 0) {
      const known = [...families, 'bars', ...units.values()];
      const mend = nearestOr(`name one of ${listed([...families, 'bars'])}`, target, known);
      sheet.problems.push(problemAt(change.origin, change.path, target, 'a kind of unit or a unit', mend));
      continue;
    }
    if (readField(change.value, stateField(kind), change.path, change.origin, sheet.problems) === undefined)
      continue;
    for (const [key] of hit) standing.set(key, (standing.get(key) ?? new Map()).set(kind, change));
  }
  const effects = new Map<PlacedChange, Set<string>>();
  for (const [path, cell] of [...sheet.cells]) alterCell(path, cell, standing, effects, sheet);
  warnOfNone(standing, effects, sheet);
  return new Map(
    [...inForce(standing)].map((change) => [change, [...(effects.get(change) ?? [])].join(', ')]),
  );
}

/** The changes that units have their states from. */
function inForce(standing: Standing): ReadonlySet<PlacedChange> {
  return new Set([...standing.values()].flatMap((kinds) => [...kinds.values()]));
}

/** Each unit by its path, `trays.T4`; bars are one. */
function unitsIn(sheet: Sheet): Map<string, string> {
  const units = new Map<string, string>([['bars', 'bars']]);
  for (const path of sheet.cells.keys()) {
    const [family = '', unit = ''] = path.split('.');
    if ((families as readonly string[]).includes(family)) units.set(`${family}.${unit}`, unit);
  }
  return units;
}

function alterCell(
  path: string,
  cell: Cell,
  standing: Standing,
  effects: Map<PlacedChange, Set<string>>,
  sheet: Sheet,
): void {
  const unit = path.startsWith('bars.') ? 'bars' : path.split('.').slice(0, 2).join('.');
  const note = modelNoteOf(cell);
  const { field, value: before } = cell;
  if (note?.value === undefined || note.value === null) return;
  if (typeof before !== 'number' || field.kind !== 'quantity') return;
  let value = before;
  for (const [kind, change] of standing.get(unit) ?? []) {
    const { extreme, part } = stateNamed(kind, change.value)!;
    const end = extreme === null ? null : note[extreme];
    if (end === null) continue;
    value = inState(value, {
      model: note.value,
      end,
      part,
      isOffset: field.spec.dimension === 'temperature',
    });
    const text = (x: number): string => formatQuantity(x, field.spec.dimension, 6);
    // The units of a kind that come out alike are one line, and what is wrong with them one problem.
    const shown = groupPath(path) ?? path;
    const line = `${shown} ${text(before)} → ${text(value)}`;
    const lines = effects.get(change) ?? new Set();
    const isSaid = lines.has(line);
    effects.set(change, lines.add(line));
    if (!isSaid && !bounded(text(value), value, field.spec, shown, change.origin, sheet.problems)) return;
  }
  if (value !== before) sheet.put(path, { ...cell, value, written: asWritten(cell) });
}

/**
 * A value as its part is: the model's own goes from `model` to `end`, others by the same factor; temperatures, and what is
 * 0 by itself, by the same difference.
 */
export function inState(
  value: number,
  {
    model,
    end,
    part,
    isOffset,
  }: { readonly model: number; readonly end: number; readonly part: number; readonly isOffset: boolean },
): number {
  const to = part === 1 ? end : model + part * (end - model);
  // The model's own value ends exactly where the model says.
  if (value === model) return to;
  return isOffset || model === 0 ? value + (to - model) : value * (to / model);
}

/** A state that alters nothing is not what was meant: the models state nothing of it. */
function warnOfNone(standing: Standing, effects: ReadonlyMap<PlacedChange, unknown>, sheet: Sheet): void {
  for (const change of inForce(standing)) {
    const state = stateNamed(stateKindOf(change.path)!, change.value)!;
    if (state.extreme === null || effects.has(change)) continue;
    sheet.problems.push(
      problemAt(
        change.origin,
        change.path,
        `${change.value}, of which the models state nothing`,
        `a model with ${state.extreme} at some number`,
        `state ${state.extreme} in the model file, or leave this out`,
        'warning',
      ),
    );
  }
}
