/** The spectrum of a stretch of samples, piece by piece where it is long: worked out once for all who read it, in memory that pieces share. */
import type { ComplexPairs } from './fourier.ts';
import { piecesOf, type SamplePiece } from './pieces.ts';
import { RealTransform } from './real-transform.ts';

/** Reads spectra as they come. X: bins up to half the rate at least; it is written over for the next piece. */
export interface SpectrumReader {
  take(X: ComplexPairs, piece: SamplePiece): void;
}

/**
 * Each piece's transform without its mean, where the stretch holds whole periods; else without the straight line through
 * its ends (`withoutLine`).
 */
export function readSpectra(
  samples: Float64Array,
  wholePeriods: boolean,
  readers: readonly SpectrumReader[],
): void {
  const pieces = piecesOf(samples, wholePeriods);
  const n = pieces[0]?.samples.length ?? 0;
  const swing = new Float64Array(n);
  const transform = new RealTransform(n);
  for (const piece of pieces) {
    fillSwing(swing, piece.samples, wholePeriods);
    const X = transform.of(swing);
    for (const reader of readers) reader.take(X, piece);
  }
}

/** Samples without their mean or without a line. */
function fillSwing(swing: Float64Array, samples: Float64Array, meanAlone: boolean): void {
  const n = samples.length;
  const first = meanAlone ? 0 : samples[0]!;
  const slope = meanAlone ? 0 : (samples[n - 1]! - first) / (n - 1);
  let sum = 0;
  for (let j = 0; j < n; j++) {
    const left = samples[j]! - first - slope * j;
    swing[j] = left;
    sum += left;
  }
  const mean = sum / n;
  for (let j = 0; j < n; j++) swing[j]! -= mean;
}
