/**
 * How well a measured column agrees with the simulated one: m − m̄ = b (s − s̄) + e, and the logarithm of the likelihood
 * gained by s over a constant, −n/2 ln(Σe²/Σ(m − m̄)²). It grows with the number of samples that are explained, so that a
 * place that leaves half of them outside the run ranks below one that uses all.
 *
 * By shape alone, gain and bias are whatever agrees best; within the class of an instrument, an error of them counts as
 * far as its class does not explain it (`within-class.ts`). A settling curve is its own copy at another time by another
 * gain: without a class it would agree everywhere.
 */
import { logarithm } from '../base/logarithm.ts';
import { type Kept, keptOf, type Tolerance } from './within-class.ts';

/** A gain beyond these is another quantity, not another cabinet. */
export const leastGain = 1 / 3;
export const mostGain = 3;
/** Share of the samples that must lie within the run (of the shorter of the two). */
export const leastInside = 0.5;

/** Sums over n samples: of s, m, s², m², s m, all less their common levels; that of m lies `apart` above that of s. */
export interface Sums {
  n: number;
  s: number;
  m: number;
  ss: number;
  mm: number;
  sm: number;
  readonly apart: number;
}

export interface Agreement extends Kept {
  /** What s is multiplied with in what is left; and m̄ − s̄, as far as it counts as an error there. */
  readonly gain: number;
  readonly bias: number;
  /** Σe². */
  readonly left: number;
  /** Σ(m − m̄)². */
  readonly all: number;
  readonly correlation_ratio: number;
  /** ln of the likelihood gained. */
  readonly gained: number;
}

/**
 * What the noise, itself but estimated, adds to either sum of squares: a measurement without any gains no infinite
 * likelihood. It is added and is no floor: on a floor every place near the top would be as good, and a search would end
 * wherever it came in.
 */
const noiseShare = 1e-4;

/** `noise`: standard deviation of the measured column's own; `within` null: by shape alone. */
export function agreementOf(
  { n, s, m, ss, mm, sm, apart }: Sums,
  noise: number,
  within: Tolerance | null,
): Agreement {
  const xx = Math.max(0, ss - (s * s) / n);
  const yy = Math.max(0, mm - (m * m) / n);
  const xy = sm - (s * m) / n;
  // What is flat but for rounding has no shape.
  const flat = xx <= 1e-18 * ss || yy <= 1e-18 * mm || !(xx > 0 && yy > 0);
  if (flat) {
    const none = { gain: 1, bias: 0, gainKept: 0, biasKept: 0 };
    return { ...none, left: yy, all: yy, correlation_ratio: 0, gained: 0 };
  }
  const shape = Math.min(mostGain, Math.max(leastGain, xy / xx));
  const leftWith = (b: number): number => Math.max(0, yy - 2 * b * xy + b * b * xx);
  const variance = Math.max(noise * noise, leftWith(shape) / n);
  const { gainKept, biasKept } = keptOf({ xx, n }, variance, within);
  const gain = shape + gainKept * (1 - shape);
  const bias = biasKept * (apart + (m - s) / n);
  const added = noiseShare * n * noise * noise;
  const left = leftWith(gain) + n * bias * bias;
  const gained = (-n / 2) * logarithm((left + added) / (yy + added));
  return {
    gain,
    bias,
    gainKept,
    biasKept,
    left,
    all: yy,
    correlation_ratio: xy / Math.sqrt(xx * yy),
    gained,
  };
}
