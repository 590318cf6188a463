/** Long stretches of samples cut to pieces, so that a spectrum's memory does not grow with the run. */

/** Longer stretches without a period are taken in overlapping pieces of this many samples. */
const piece = 2 ** 17;

export interface SamplePiece {
  readonly start: number;
  readonly samples: Float64Array;
  /** The part of the piece whose rebuilt content counts. */
  readonly from_ratio: number;
  readonly to_ratio: number;
}

/** A stretch of so many samples is cut. */
export function isLong(samples: Float64Array): boolean {
  return samples.length > 2 * piece;
}

/**
 * The stretch at once, or, where it is long, pieces that overlap by half: of each the middle half counts,
 * of the first and last also their outer quarter. Bounds memory; an hour at 1 kHz is 54 pieces.
 */
export function piecesOf(samples: Float64Array, wholePeriods: boolean): SamplePiece[] {
  const n = samples.length;
  if (n < 2) return [];
  if (wholePeriods || !isLong(samples)) return [{ start: 0, samples, from_ratio: 0, to_ratio: 1 }];
  const pieces: SamplePiece[] = [];
  for (let from = 0; from < n - piece / 2; from += piece / 2) {
    const start = Math.min(from, n - piece);
    const last = from + piece >= n;
    pieces.push({
      start,
      samples: samples.subarray(start, start + piece),
      from_ratio: from === 0 ? 0 : 0.25,
      to_ratio: last ? 1 : 0.75,
    });
    if (last) break;
  }
  return pieces;
}
