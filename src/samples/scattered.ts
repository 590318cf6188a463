/** Stamps that are no time of one recording: a single wrong one makes a span of years. */
import { digits } from '../base/digits.ts';
import type { Problem } from '../base/problem.ts';
import type { Gap } from './gaps.ts';

/** Share of its own span that the samples of a channel must cover. */
const leastCoverage_ratio = 0.01;
/** No meter samples faster than this [s]. */
const shortest_s = 1e-12;

/** What is wrong with rising stamps, and the way out; null where they can be of one recording. */
export function scattered(
  name: string,
  time_s: Float64Array,
  gaps: readonly Gap[],
): Pick<Problem, 'found' | 'expected' | 'mend'> | null {
  const span_s = time_s[time_s.length - 1]! - time_s[0]!;
  const inGaps_s = gaps.reduce((all, gap) => all + gap.to_s - gap.from_s, 0);
  if (span_s - inGaps_s < leastCoverage_ratio * span_s) {
    const longest = gaps.reduce((a, b) => (b.to_s - b.from_s > a.to_s - a.from_s ? b : a));
    return {
      found: `stamps of ${name} over ${digits(span_s, 4)} s of which samples cover less than ${100 * leastCoverage_ratio} %: nothing for ${digits(longest.to_s - longest.from_s, 4)} s after the stamp at ${digits(longest.from_s, 9)} s`,
      expected: 'stamps of one recording',
      mend: 'take out the rows whose stamp is wrong, or split the file there',
    };
  }
  if (span_s < shortest_s * (time_s.length - 1)) {
    return {
      found: `stamps of ${name} that lie ${digits(span_s / (time_s.length - 1))} s apart`,
      expected: 'stamps that a meter can give, a picosecond apart at least',
      mend: 'check the unit of the stamps: --time COLUMN:UNIT',
    };
  }
  return null;
}
