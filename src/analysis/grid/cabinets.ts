/**
 * Several cabinets like this one at one point of connection: the means add; swings about the mean add where the
 * loads fall together, and their squares add where they are independent (random phases, √n).
 */

import type { Stated } from '../record/stated.ts';
import { meanOfSamples, type Samples, through } from '../signal/samples.ts';

type Crowd = Pick<Stated, 'cabinets_on_feeder_count' | 'coincidence'>;

/** Factor on swings. */
export function swingFactor({ cabinets_on_feeder_count: n, coincidence }: Crowd): number {
  return coincidence === 'together' ? n : Math.sqrt(n);
}

/** The power of all of them, from that of one, which swings about its mean. */
export function ofAll(power: Samples, crowd: Crowd): Samples {
  const n = crowd.cabinets_on_feeder_count;
  if (n === 1) return power;
  const swing = swingFactor(crowd);
  const mean = meanOfSamples(power);
  return through(power, (stretch) => {
    for (let j = 0; j < stretch.length; j++) stretch[j] = n * mean + swing * (stretch[j]! - mean);
  });
}

/** `20 cabinets, together`; null for one. */
export function crowdWords({ cabinets_on_feeder_count: n, coincidence }: Crowd): string | null {
  if (n === 1) return null;
  return `${n} cabinets, ${coincidence === 'together' ? 'swings together' : 'swings independent'}`;
}
