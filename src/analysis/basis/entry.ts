import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';

/** An entry of the basis; what is not said is not known, and conditions nothing. */
export function entry(
  kind: BasisEntry['kind'],
  what: string,
  more: Partial<Omit<BasisEntry, 'kind' | 'what'>> = {},
): BasisEntry {
  return { kind, what, by: null, reason: null, since: null, conditions: false, ...more };
}

/** Who wrote a value: an option, or file and line; null where nobody did and a default holds. */
export function writtenBy({ origins }: Pick<Stated, 'origins'>, path: string): string | null {
  const origin = origins.get(path);
  if (origin === undefined) return null;
  return origin.line === 0 ? origin.file : `${origin.file}:${origin.line}`;
}

/** A time as people read it. */
export function seconds(time_s: number): string {
  return `${Number(time_s.toPrecision(6))} s`;
}
