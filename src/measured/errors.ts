import type { ErrorBand } from '../analysis/judge/report.ts';
import { bandEdges_Hz } from '../analysis/signal/bands.ts';
import { complexOf, transform } from '../analysis/signal/fourier.ts';
import { bandwidthOfRate } from '../loads/recorded/bandwidth.ts';

/** Bands of a run's ripple, and above them what a fast recorder shows. */
const errorEdges_Hz = [...bandEdges_Hz, [300, 3000], [3000, 30_000]] as const;

/** What even samples show [Hz]: to where a mean over an interval still passes 0.7. */
export function reachOfRate_Hz(rate_Hz: number): number {
  return bandwidthOfRate * rate_Hz;
}

/**
 * RMS of an error (even samples) by band, from its spectrum: √(2 Σ|X_k|²)/n over the bins of the band. null where
 * the stretch is shorter than two of the band's longest periods, or the measurement does not reach up to it.
 */
export function errorBands(error: Float64Array, rate_Hz: number): ErrorBand[] {
  const n = error.length;
  const X = n < 2 ? null : transform(complexOf(error));
  return errorEdges_Hz.map(([low_Hz, high_Hz]) => {
    const top_Hz = Math.min(high_Hz, reachOfRate_Hz(rate_Hz));
    if (X === null || (n / rate_Hz) * low_Hz < 2 || top_Hz <= low_Hz) return { low_Hz, high_Hz, rms: null };
    let sum = 0;
    for (let k = Math.ceil((low_Hz * n) / rate_Hz); k < (top_Hz * n) / rate_Hz && k < n / 2; k++) {
      sum += X[2 * k]! * X[2 * k]! + X[2 * k + 1]! * X[2 * k + 1]!;
    }
    return { low_Hz, high_Hz, rms: Math.sqrt(2 * sum) / n };
  });
}
