/** A channel that is flat at its bottom, high above 0, and nowhere else. */
import { quantileOf } from '../quantile.ts';
import { rangeOf } from '../range.ts';
import { flatTop } from './clipped.ts';
import { isCoarse } from './frozen.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

/** Below this share of what it does at its busiest a load may rest at one reading. */
const rest_ratio = 0.15;
const busy_share = 0.98;
/** What it does most of the time is its own level. */
const mostFlat_share = 0.5;

export function clippedBelow(one: Sampled): Sign[] {
  const { values, written } = one;
  if (values.length < fewestSamples || isCoarse(values)) return [];
  const busy = quantileOf(values.length, (i) => values[i]!, busy_share);
  if (rangeOf(values).lowest <= rest_ratio * busy) return [];
  const turned = { ...one, values: values.map((v) => -v), written: (value: number) => written(-value) };
  return flatTop(turned, 'above', mostFlat_share).map((sign) => ({
    ...sign,
    asks: 'a sensor that shows nothing lower, or a load that rests at one reading?',
  }));
}
