/** Ageing: units of a kind, or one unit, take the end-of-life values that their model states. */

import type { PlacedChange } from '../sections/run-fields.ts';
import type { Sheet } from '../sheet.ts';
import { families } from '../tables.ts';
import { problemAt } from '../text/document.ts';
import { listed, nearestOr } from '../text/nearest.ts';

const states = ['end-of-life', 'new'] as const;

/**
 * Applies `ageing.trays: end-of-life` and `ageing.T4: new`, later ones over earlier ones. Only values that come
 * from a model age; what a cabinet file writes over its model stays as written.
 */
export function applyAgeing(changes: readonly PlacedChange[], sheet: Sheet): void {
  const unitsOf = new Map<string, string>();
  for (const path of sheet.cells.keys()) {
    const [family = '', unit = ''] = path.split('.');
    if ((families as readonly string[]).includes(family)) unitsOf.set(`${family}.${unit}`, unit);
  }
  const aged = new Set<string>();
  for (const { path, value, origin } of changes) {
    const target = path.slice('ageing.'.length);
    const hit = [...unitsOf].filter(([key, unit]) => unit === target || key.startsWith(`${target}.`));
    if (hit.length === 0) {
      const known = [...families, ...unitsOf.values()];
      const mend = nearestOr(`name one of ${listed(families)}`, target, known);
      sheet.problems.push(problemAt(origin, path, target, 'a kind of unit or a unit', mend));
      continue;
    }
    if (!(states as readonly string[]).includes(value)) {
      sheet.problems.push(problemAt(origin, path, value, listed(states), 'write one of them'));
      continue;
    }
    for (const [key] of hit) {
      if (value === 'end-of-life') aged.add(key);
      else aged.delete(key);
    }
  }
  for (const [path, cell] of [...sheet.cells]) {
    const unit = path.split('.').slice(0, 2).join('.');
    const old = cell.note?.end_of_life;
    if (aged.has(unit) && old !== null && old !== undefined) sheet.put(path, { ...cell, value: old });
  }
}
