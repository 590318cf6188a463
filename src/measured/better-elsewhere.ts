/** Whether a measurement whose place was stated agrees clearly better with another place of the run. */
import { numberText } from '../analysis/words/number-text.ts';
import { exponential } from '../base/exponential.ts';
import { placeByClassOrShape } from './class-or-shape.ts';
import { gainedAt } from './fine.ts';
import type { MeasuredPair } from './pair.ts';
import { within95 } from './place.ts';

/** The other place must be as sure as one that is taken without being told. */
const leastCorrelation = 0.3;
const leastConfidence = 0.95;
/** Clearly better: what is left there, as RMS, is less by this factor. */
const leastBetter = 1.5;
/** And so many samples off at least: less is what a model that is slightly wrong does. */
const leastSamples = 3;

/** A sentence, or none. */
export function betterElsewhere(pairs: readonly MeasuredPair[], stated_s: number): string[] {
  const found = placeByClassOrShape(pairs, null);
  if (found === null || found.confidence_ratio < leastConfidence) return [];
  const { fine, precision } = found;
  if (!fine.channels.some(({ correlation_ratio }) => correlation_ratio >= leastCorrelation)) return [];
  const interval_s = Math.max(...pairs.map((pair) => pair.interval_s));
  const off_s = fine.at_s - stated_s;
  if (Math.abs(off_s) < Math.max(leastSamples * interval_s, 2 * within95 * precision.at_error_s)) return [];
  const byShape = found.by === 'shape' ? pairs.map((pair) => ({ ...pair, within: null })) : pairs;
  const count = fine.channels.reduce((sum, { left }) => sum + left.length, 0);
  // What a likelihood gains for each sample is the logarithm of what is left less, as RMS.
  const better = exponential((fine.gained - gainedAt(byShape, stated_s, 0)) / count);
  if (better < leastBetter) return [];
  const [place, stated, by] = [fine.at_s, stated_s, Math.abs(off_s)].map((t) => numberText(t, 's'));
  const way = off_s > 0 ? 'later' : 'earlier';
  return [
    `The stated place, ${stated} (--measured-at), fits clearly worse than ${place}, ${by} ${way}: what is left there is ${numberText(better, '', 2)} times smaller. All that is compared below holds only if the stated place is right. Check it, or leave it out to have the place found.`,
  ];
}
