/** What the model leaves open of a line that is not as it should be. */
import { formatPercent } from '../../base/quantity.ts';
import type { BasisEntry } from '../basis.ts';
import { type Case, spansOf } from '../record/case.ts';
import { entry } from './entry.ts';

/** Above this no input stage is assumed to bear the line [of nominal]. */
const highest_ratio = 1.2;

export function lineBasis(c: Case): BasisEntry[] {
  const found = spansOf(c, ['altered']);
  const high = found.filter(({ what, amount }) => what === 'ac-swell' && (amount ?? 1) > highest_ratio);
  const lost = found.filter(({ what }) => what === 'phase-loss').map(({ who }) => who);
  const smooth = c.scenario.shelves.some(
    ({ feeder, values }) => lost.includes(feeder) && values.line_ripple_ratio < 1,
  );
  return [
    ...high.map(({ who, amount }) =>
      entry(
        'assumed',
        `the input stages withstand ${formatPercent(amount ?? 1, 3)} of the line voltage at ${who}`,
        {
          reason: `no model states the highest line voltage; above ${formatPercent(highest_ratio, 3)} none is assumed to withstand it`,
          conditions: true,
        },
      ),
    ),
    ...(smooth
      ? [
          entry('assumed', 'with a phase lost the power does not pulse at twice the line frequency', {
            reason:
              'shelves.line_ripple is what is modelled of it; without a phase the three no longer cancel',
            conditions: true,
          }),
        ]
      : []),
  ];
}
