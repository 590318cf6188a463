import { medianInterval_s } from '../samples/series.ts';

/** A median interval is no shorter than this share of the mean. */
const leastOfMean = 1 / 16;

/**
 * From one stamp to the next [s]: the median. Stamps rounded to a coarse tick come several at a time, and those of bursts
 * far apart: then a share of the mean, or a file of some hundred samples would count as billions of intervals long.
 */
export function intervalBetween(time_s: Float64Array): number {
  const mean_s = (time_s.at(-1)! - time_s[0]!) / Math.max(1, time_s.length - 1);
  return Math.max(medianInterval_s(time_s), leastOfMean * mean_s);
}
