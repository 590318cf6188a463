/**
 * How well a measured column agrees with the simulated one, whatever its offset and, within bounds, its gain:
 * m = a + b s + e, and the logarithm of the likelihood gained by s over a constant, −n/2 ln(Σe²/Σ(m − m̄)²).
 * It grows with the number of samples that are explained, so that a place that leaves half of them outside the run
 * ranks below one that uses all.
 */

/** A gain beyond these is another quantity, not another cabinet. */
export const leastGain = 1 / 3;
export const mostGain = 3;
/** Share of the samples that must lie within the run (of the shorter of the two). */
export const leastInside = 0.5;

/** Sums over n samples: of s, m, s², m², s m, all less their common levels. */
export interface Sums {
  n: number;
  s: number;
  m: number;
  ss: number;
  mm: number;
  sm: number;
}

export interface Agreement {
  readonly gain: number;
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

/** `noise`: standard deviation of the measured column's own. */
export function agreementOf({ n, s, m, ss, mm, sm }: Sums, noise: number): Agreement {
  const xx = Math.max(0, ss - (s * s) / n);
  const yy = Math.max(0, mm - (m * m) / n);
  const xy = sm - (s * m) / n;
  // What is flat but for rounding has no shape.
  const flat = xx <= 1e-18 * ss || yy <= 1e-18 * mm || !(xx > 0 && yy > 0);
  if (flat) return { gain: 1, left: yy, all: yy, correlation_ratio: 0, gained: 0 };
  const gain = Math.min(mostGain, Math.max(leastGain, xy / xx));
  const added = noiseShare * n * noise * noise;
  const left = Math.max(0, yy - 2 * gain * xy + gain * gain * xx);
  const gained = (-n / 2) * Math.log((left + added) / (yy + added));
  return { gain, left, all: yy, correlation_ratio: xy / Math.sqrt(xx * yy), gained };
}
