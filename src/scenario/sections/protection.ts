/** The section `protection`: devices by name, whom each guards, its rating and its time–current curve. */
import { guardParameters } from '../parameters/guard.ts';
import type { GuardSpec, TripCurve } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import { asBranch, asWords, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import type { Branch, Leaf } from '../text/document.ts';
import { quantity } from '../text/field.ts';
import { writeOwn } from './own-values.ts';
import { readTripCurve } from './trip-curve.ts';

export const guardKeys: readonly string[] = ['guards', 'curve', ...Object.keys(guardParameters)];

/** A protection device as it is written; its rating is in the sheet. */
export interface WrittenGuard {
  readonly id: string;
  readonly guards: readonly Leaf[];
  readonly curve: TripCurve;
}

/** Reads `protection:` of the scenario at `file`; none where there is none. */
export function readProtection(file: string, root: Branch, desk: Desk, sheet: Sheet): WrittenGuard[] {
  const entry = root.entries.get('protection');
  const all = entry === undefined ? null : asBranch(entry.node, 'protection', desk.problems);
  return [...(all?.entries ?? [])].flatMap(([id, { node }]): WrittenGuard[] => {
    const path = guardPath(id);
    const one = asBranch(node, path, desk.problems);
    if (one === null) return [];
    refuseUnknownKeys(one, guardKeys, path, desk.problems);
    const { rating } = guardParameters;
    required(one, 'rating', path, rating.means, desk.problems);
    writeOwn(one, 'rating', path, quantity(rating), sheet);
    const guards = required(one, 'guards', path, 'the units, each behind such a device', desk.problems);
    const words = guards === null ? [] : asWords(guards.node, joined(path, 'guards'), desk.problems);
    const written = required(one, 'curve', path, 'points such as 1.5: 600 s, or a CSV file', desk.problems);
    const curve = written === null ? null : readTripCurve(file, written.node, joined(path, 'curve'), desk);
    return curve === null ? [] : [{ id, guards: words, curve }];
  });
}

export function guardsOf(written: readonly WrittenGuard[], sheet: Sheet): GuardSpec[] {
  return written.map(({ id, guards, curve }) => ({
    id,
    guards: guards.map(({ text }) => text),
    values: { rating_A: sheet.number(`${guardPath(id)}.rating`) },
    curve,
  }));
}

function guardPath(id: string): string {
  return `protection.${id}`;
}

export function guardsPath(id: string): string {
  return `${guardPath(id)}.guards`;
}
