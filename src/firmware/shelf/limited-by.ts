/** What limits a shelf's output stage at the moment, and how that is told. */
import type { WhatOf } from '../../events/spans.ts';
import type { Site } from '../site.ts';

export type ShelfLimit = Extract<WhatOf<'at-limit'>, 'current' | 'power' | 'bulk' | 'walk-in' | 'soft start'>;

/** What limits shelf k, at its limit with voltage v at its output. */
export function shelfLimit({ intakes }: Site, k: number, v: number, isStarting: boolean): ShelfLimit {
  const isFed = intakes.hasAc(k);
  if (isStarting) return 'soft start';
  if (isFed && !intakes.hasWalkedIn(k)) return 'walk-in';
  if (isFed && intakes.isFolded(k)) return 'bulk';
  return intakes.isPowerLimited(k, v) ? 'power' : 'current';
}

/**
 * That limit of shelf k in words, at current i and voltage v; null for walk-in and soft start, which tell of themselves.
 * `derated`: share of its rated power that it is derated to, 1 when it is not.
 */
export function limitWords(
  { intakes }: Site,
  k: number,
  limit: ShelfLimit,
  i: number,
  v: number,
  derated: number,
): string | null {
  if (limit === 'soft start' || limit === 'walk-in') return null;
  const at = `at ${i.toFixed(0)} A and ${v.toFixed(2)} V`;
  if (limit === 'bulk') return `limit folded back with its bulk at ${intakes.bulk_V(k).toFixed(1)} V: ${at}`;
  const cool = derated < 1 ? `, derated to ${(100 * derated).toFixed(0)} %` : '';
  return `${limit} limit takes hold ${at}${cool}`;
}
