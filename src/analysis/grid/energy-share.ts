/** Which part of a power's swing lies in a band of frequencies, by energy. */
import { withoutLine, withoutMean } from '../signal/detrend.ts';
import { complexOf, transform } from '../signal/fourier.ts';
import { piecesOf } from '../signal/pieces.ts';

/**
 * Σ|X|² of the bins in low ≤ f ≤ high over that of all bins but 0 Hz. Over whole periods the bins are the
 * harmonics; else a straight line is removed first, and long stretches
 * are added up piece by piece. null for a power that does not swing.
 */
export function energyShare(
  samples: Float64Array,
  rate_Hz: number,
  wholePeriods: boolean,
  [low_Hz, high_Hz]: readonly [number, number],
): number | null {
  let inside = 0;
  let all = 0;
  for (const part of piecesOf(samples, wholePeriods)) {
    const n = part.samples.length;
    const X = transform(complexOf(wholePeriods ? withoutMean(part.samples) : withoutLine(part.samples)));
    for (let k = 1; 2 * k <= n; k++) {
      const energy = (2 * k === n ? 1 : 2) * (X[2 * k]! ** 2 + X[2 * k + 1]! ** 2);
      const f_Hz = (k * rate_Hz) / n;
      all += energy;
      if (f_Hz >= low_Hz * (1 - 1e-9) && f_Hz <= high_Hz * (1 + 1e-9)) inside += energy;
    }
  }
  return all > 0 ? inside / all : null;
}
