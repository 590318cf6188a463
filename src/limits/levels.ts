/** The voltage levels whose stays the meter counts. */

import { busStay } from '../scenario/limit-quantities.ts';
import type { LimitRow } from '../scenario/limit-row.ts';
import { scaleOf } from './absolute.ts';

/** Spacing of the extra levels inside the narrowest window, over the nominal voltage. */
const innerSpacing_ratio = 0.002;

/**
 * Every level of every bus row in every column, absolute, ascending; and between the innermost pair an even
 * grid, so that the level a voltage stays beyond can be told when no limit is reached.
 */
export function levelsOf(limits: readonly LimitRow[], nominal_V: number): Float64Array {
  const levels = new Set<number>();
  let innerLow = Number.NEGATIVE_INFINITY;
  let innerHigh = Number.POSITIVE_INFINITY;
  for (const row of limits) {
    if (row.quantity !== busStay) continue;
    // The same product as in the limit itself, so that level and limit are equal to the bit.
    const { factor } = scaleOf(row, { nominal_V, rated_W: Number.NaN });
    for (const value of [row.normal, row.carry, row.degraded]) {
      if (value === null) continue;
      const level = value * factor;
      levels.add(level);
      if (row.side === 'lower') innerLow = Math.max(innerLow, level);
      else innerHigh = Math.min(innerHigh, level);
    }
  }
  const spacing = innerSpacing_ratio * nominal_V;
  const pieces = Math.round((innerHigh - innerLow) / spacing);
  if (Number.isFinite(pieces)) {
    for (let k = 1; k < pieces; k++) levels.add(innerLow + ((innerHigh - innerLow) * k) / pieces);
  }
  return Float64Array.from([...levels].sort((a, b) => a - b));
}
