/**
 * The rated power that ramp, range and start limits are shares of. Stated above what the shelves can give, it makes
 * every one of those limits wider than the cabinet.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { numberText } from '../words/number-text.ts';
import { entry, writtenBy } from './entry.ts';

export function ratedBasis(scenario: Stated): BasisEntry[] {
  const given_W = scenario.shelves.reduce(
    (sum, { values }) => sum + values.module_count_count * values.module_power_W,
    0,
  );
  if (!(scenario.rated_W > given_W)) return [];
  return [
    entry(
      'assumed',
      `rated ${numberText(scenario.rated_W, 'W')}, more than the shelves can give, ${numberText(given_W, 'W')}`,
      {
        by: writtenBy(scenario, 'rated'),
        reason: 'ramp and range limits are shares of the rated power',
        conditions: true,
      },
    ),
  ];
}
