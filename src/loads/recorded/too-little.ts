/** Powers that are too little for any device of a rack: kilowatts, or shares, under the name of watts. */
import { formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../../samples/range.ts';
import type { Series } from '../../samples/series.ts';

/** A device that draws less at its busiest is none that a cabinet feeds. Assumed: common practice, no source. */
const least_W = 5;

/** A sentence where all channels together never reach it. */
export function tooLittle(names: readonly string[], { power_W }: Pick<Series, 'power_W'>): string[] {
  const { highest } = rangeOf(power_W);
  if (highest >= least_W || highest <= 0) return [];
  return [
    `${names.join(' + ')} reaches ${formatQuantity(highest, 'power', 4)} at most, less than any device of a rack: its unit may be another than its name says (--unit), or it is a share.`,
  ];
}
