/** The lengths of time that limits on what a unit keeps up ask for. */

import { oneSecond_s, sustained } from '../scenario/limit-quantities.ts';
import type { LimitRow } from '../scenario/limit-row.ts';

/** Each length once, ascending [s]: the stays of rows about a level kept, and the second of those about a mean. */
export function sustainedLengths(limits: readonly LimitRow[]): number[] {
  const lengths = limits.flatMap(({ quantity, stay_s }) => {
    if (quantity === 'sled-power-1s') return [oneSecond_s];
    return sustained.has(quantity) && stay_s !== null && stay_s > 0 ? [stay_s] : [];
  });
  return [...new Set(lengths)].sort((a, b) => a - b);
}
