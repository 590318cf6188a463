/**
 * Several cabinets like this one at one point of connection: the means add; swings about the mean add where the
 * loads fall together, and their squares add where they are independent (random phases, √n).
 */

import type { Stated } from '../record/stated.ts';
import { type Samples, through } from '../signal/samples.ts';

type Crowd = Pick<Stated, 'cabinets_on_feeder_count' | 'coincidence'>;

/** Factor on swings. */
export function swingFactor({ cabinets_on_feeder_count: n, coincidence }: Crowd): number {
  return coincidence === 'together' ? n : Math.sqrt(n);
}

/** The power of all of them, from that of one; `mean` about which one swings. */
export function ofAll(power: Samples, mean: number, crowd: Crowd): Samples {
  const n = crowd.cabinets_on_feeder_count;
  if (n === 1) return power;
  const swing = swingFactor(crowd);
  return through(power, (p) => n * mean + swing * (p - mean));
}

/** `20 cabinets, together`; null for one. */
export function crowdWords({ cabinets_on_feeder_count: n, coincidence }: Crowd): string | null {
  if (n === 1) return null;
  return `${n} cabinets, ${coincidence === 'together' ? 'swings together' : 'swings independent'}`;
}
