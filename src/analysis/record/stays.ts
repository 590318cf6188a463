/**
 * Bus voltage against duration: the level that a node's voltage stays beyond for a row's time.
 *
 * The verdict compares the longest stay at the limit's own level with the stay allowed, and ties in either keep it. The value shown is read off
 * the meter's levels, straight between them; the node's own extreme closes the curve at no time at all, and no value is shown
 * that the node never had.
 */
import type { Stays } from '../../engine/result.ts';
import type { Limit } from '../../limits/limit.ts';
import { isInside, isTie } from '../judge/tie.ts';
import type { Reading } from '../read/reading.ts';

export interface NodeExtreme {
  readonly min: number;
  readonly min_s: number;
  readonly max: number;
  readonly max_s: number;
}

/**
 * The worst node against one limit, in the table that the limit's column names. The worst is the one whose
 * level lies farthest towards the limit; nodes that fail go before nodes that pass.
 * `stays`: Infinity for a stay without end, which is `measured` for so long. `extremeOf` gives a node's extreme voltages, or null where
 * they are not known.
 */
export function readStay(
  stays: Stays,
  measured: Stays,
  limit: Limit,
  level_V: number,
  nominal_V: number,
  extremeOf: (node: string) => NodeExtreme | null,
): Reading {
  const table = limit.column === 'carry' ? stays.carry : stays.normal;
  const lower = limit.side === 'lower';
  const longest = lower ? table.below_s : table.above_s;
  const seen = limit.column === 'carry' ? measured.carry : measured.normal;
  const seen_s = lower ? seen.below_s : seen.above_s;
  const began = lower ? table.belowAt_s : table.aboveAt_s;
  const counts = lower ? table.belowCount : table.aboveCount;
  const stay_s = limit.stay_s ?? 0;
  const nLevel = stays.levels_V.length;
  const iLevel = stays.levels_V.indexOf(level_V);
  if (iLevel < 0) throw new RangeError(`the meter counted no stays at ${level_V} V, which ${limit.id} needs`);

  let best: { reading: Reading; passes: boolean; depth: number } | null = null;
  for (const [n, node] of stays.nodes.entries()) {
    const at = n * nLevel;
    const stay = longest[at + iLevel]!;
    const extreme = extremeOf(node);
    // Without end is longer than any stay: for the value by what was seen of it.
    const curve = longest
      .subarray(at, at + nLevel)
      .map((s, l) => (Number.isFinite(s) ? s : seen_s[at + l]! + stay_s));
    const stayed = levelStayed(stays.levels_V, curve, stay_s, lower, extreme);
    if (stayed === null) continue;
    const value =
      extreme === null ? stayed : lower ? Math.min(extreme.max, stayed) : Math.max(extreme.min, stayed);
    const passes = isInside(stay, stay_s, 'upper') || isTie(value, level_V);
    const depth = lower ? level_V - value : value - level_V;
    if (best !== null && (best.passes === passes ? depth <= best.depth : passes)) continue;
    const isSeen = counts[at + iLevel]! > 0;
    const extreme_s = extreme === null ? null : lower ? extreme.min_s : extreme.max_s;
    best = {
      passes,
      depth,
      reading: {
        value,
        nominal: nominal_V,
        passes,
        node,
        time_s: isSeen ? began[at + iLevel]! : extreme_s,
        duration_s: Number.isFinite(stay) ? stay : null,
        count: counts[at + iLevel]!,
        ...(Number.isFinite(stay)
          ? {}
          : { reason: 'it stays there for as long as the load goes on as it does' }),
      },
    };
  }
  return best === null ? { value: null, reason: 'no bus voltage was recorded' } : best.reading;
}

/**
 * The level beyond which the voltage stays for exactly stay_s: longest stays grow towards the nominal, so
 * the curve is walked from the far end. null where the node has neither levels crossed nor an extreme.
 */
export function levelStayed(
  levels_V: Float64Array,
  longest_s: Float64Array,
  stay_s: number,
  lower: boolean,
  extreme: { readonly min: number; readonly max: number } | null,
): number | null {
  const n = levels_V.length;
  // From the outside in: the farthest point never crossed, or the extreme if that lies nearer.
  let previous: number | null = null;
  let previousStay = 0;
  const far = extreme === null ? null : lower ? extreme.min : extreme.max;
  for (let k = 0; k < n; k++) {
    const l = lower ? k : n - 1 - k;
    const level = levels_V[l]!;
    const stay = longest_s[l]!;
    if (stay > stay_s) {
      // Never beyond `previous` in this table: the extreme is a nearer point without any stay.
      if (previousStay === 0 && far !== null) {
        const nearer = previous === null || (lower ? far > previous : far < previous);
        if (nearer && (lower ? far < level : far > level)) previous = far;
      }
      if (previous === null) return level;
      return previous + ((level - previous) * (stay_s - previousStay)) / (stay - previousStay);
    }
    previous = level;
    previousStay = stay;
  }
  // No level is stayed beyond for that long: the extreme, if it lies nearer than the last level.
  if (far === null) return previous;
  if (previous === null) return far;
  return lower ? Math.max(previous, far) : Math.min(previous, far);
}
