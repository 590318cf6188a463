/** What changes did to a scenario: each value, what stood there before and who asked. */

import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { Sheet } from '../sheet.ts';
import type { FieldSpec, FieldValue } from '../text/field.ts';
import type { Origin } from '../text/origin.ts';

/** One change as carried out. */
export interface Alteration {
  readonly path: string;
  /** What the files say there; null where they say nothing of it, or something else for each unit. */
  readonly from: string | null;
  /** As the user wrote it. */
  readonly to: string;
  /** Option, or file and line. */
  readonly by: string;
  /** Of a state of parts what it makes of their values, for people. */
  readonly makes?: string;
}

/** Values as the files leave them, by path, of what options have written over. */
export type Stood = Map<string, FieldValue>;

/**
 * Carries out a change of values and tells what it did. `stood`: what an option writes over is noted there, so that another
 * one tells what the files say; null for a change that is one of the files' own.
 */
export function alter(
  path: string,
  to: string,
  origin: Origin,
  sheet: Sheet,
  stood: Stood | null = null,
): Alteration {
  const before = sheet.targetsOf(path).map((target) => {
    const { field, value: now } = sheet.cells.get(target)!;
    const value = stood?.has(target) ? stood.get(target)! : now;
    stood?.set(target, value);
    return valueText({ field, value }, to.includes('%'));
  });
  sheet.change(path, to, origin);
  const [first = null, ...others] = new Set(before);
  return { path, from: others.length === 0 ? first : null, to, by: placeText(origin) };
}

/**
 * Those that hold in the end, of alterations with what each reaches: one whose every place a later one writes over did
 * nothing, and the verdict does not rest on it.
 */
export function holding<A extends { readonly reaches: readonly string[] }>(all: readonly A[]): A[] {
  const last = new Map<string, A>();
  for (const one of all) for (const place of one.reaches) last.set(place, one);
  return all.filter(
    (one) => one.reaches.length === 0 || one.reaches.some((place) => last.get(place) === one),
  );
}

/** A change of what stands where, of age or of events: nothing single stood there before. */
export function added(path: string, to: string, origin: Origin): Alteration {
  return { path, from: null, to, by: placeText(origin) };
}

/** Where something was written: an option as it is, a file with its line. */
export function placeText({ file, line }: Origin): string {
  return line === 0 ? file : `${file}:${line}`;
}

/** A value as a user would write it; `percent`: so a ratio is to be read. */
function valueText(
  { field, value }: { readonly field: FieldSpec; readonly value: FieldValue },
  percent: boolean,
): string {
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string' || field.kind !== 'quantity') return String(value);
  return percent ? formatPercent(value, 6) : formatQuantity(value, field.spec.dimension, 6);
}
