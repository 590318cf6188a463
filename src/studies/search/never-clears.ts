/** Where nothing passes: what stands in the way, and how near it came. */
import type { SearchResult, Tried } from './least-passing.ts';

export interface Nearest {
  /** Limit and situation, see `constraint`. */
  readonly key: string;
  readonly headroom: number;
  /** Index of the candidate that came nearest. */
  readonly at: number;
}

/**
 * The limit whose best showing is worst never clears. Where each clears somewhere they exclude each other: the
 * tightest at the candidate that came nearest overall.
 */
export function nearestOf({ tried }: SearchResult): Nearest {
  const best = new Map<string, { headroom: number; at: number }>();
  for (const [at, { headrooms }] of tried) {
    for (const [key, headroom] of headrooms) {
      if (headroom > (best.get(key)?.headroom ?? Number.NEGATIVE_INFINITY)) best.set(key, { headroom, at });
    }
  }
  const [key, { headroom, at }] = [...best].reduce((a, b) => (b[1].headroom < a[1].headroom ? b : a));
  if (headroom < 0) return { key, headroom, at };
  const [place, nearest] = [...tried].reduce((a, b) => (worstOf(b[1]) > worstOf(a[1]) ? b : a));
  const [tight, room] = tightestIn(nearest);
  return { key: tight, headroom: room, at: place };
}

/** Headroom of the limit that is tightest. */
export function worstOf({ headrooms }: Tried): number {
  return Math.min(...headrooms.values());
}

export function tightestIn({ headrooms }: Tried): readonly [key: string, headroom: number] {
  return [...headrooms].reduce((a, b) => (b[1] < a[1] ? b : a));
}
