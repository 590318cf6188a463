/**
 * Ripple by frequency band: peak to peak of the band's content over the mean.
 *
 * The content is rebuilt from the spectrum of the stretch. A bin at f belongs to the band low ≤ f < high, so
 * that neighbouring bands share no bin. Over whole periods the bins are the harmonics themselves; otherwise the
 * straight line through the first and last sample is removed first, without a window. A transform of the same samples
 * that takes out their mean alone reads the jump from the last to the first as well, J/(π f T) in the bin at f: 2 % more
 * in the median from 0.5 to 3 Hz of a recording's 30 s whose ends lie apart by half its mean, 40 % at most
 * (`tests/analysis/bands-outside.test.ts`, which also makes the same bands again by sums written out, within 0.5 %). The rebuilt wave is drawn at least 16 points to a cycle of the highest bin,
 * its peaks by a parabola through three points: found to within 0.1 %.
 */

import type { Band } from '../judge/report.ts';
import { meanOf, withoutLine, withoutMean } from './detrend.ts';
import { type ComplexPairs, complexOf, inverseInto, transform } from './fourier.ts';
import { piecesOf, type SamplePiece } from './pieces.ts';

export type BandEdges = readonly [low_Hz: number, high_Hz: number];

export const bandEdges_Hz: readonly BandEdges[] = [
  [0.1, 0.5],
  [0.5, 3],
  [3, 20],
  [20, 300],
];

/** Edges that fall on a bin but for rounding count as on it. */
const edgeSlack_bins = 1e-6;
const pointsPerCycle = 16;

/** A band's ripple, and when its content lies farthest from zero, from the first sample on. */
export interface BandSwing extends Band {
  readonly after_s: number | null;
}

/**
 * Ripple of each band, null where the stretch is shorter than two of the band's longest periods or the
 * samples do not reach up to the band's lower edge.
 * `wholePeriods`: the stretch holds whole periods of a periodic signal; no line is removed.
 * `endless`: it repeats without end, so that no band is too low for it; one below its first harmonic is empty.
 */
export function bandRipple(
  samples: Float64Array,
  rate_Hz: number,
  wholePeriods: boolean,
  edges_Hz: readonly BandEdges[] = bandEdges_Hz,
  endless = false,
): BandSwing[] {
  const duration_s = samples.length / rate_Hz;
  const mean = meanOf(samples);
  const seen = edges_Hz.map(([low_Hz]) => {
    const long = endless || duration_s * low_Hz >= 2 * (1 - 1e-9);
    return long && mean > 0 && rate_Hz / 2 > low_Hz;
  });
  const swings = edges_Hz.map((): ContentSwing => ({ low: 0, high: 0, lowAt: 0, highAt: 0 }));
  const grids: Grids = new Map();
  for (const part of piecesOf(samples, wholePeriods)) {
    const n = part.samples.length;
    const X = transform(complexOf(wholePeriods ? withoutMean(part.samples) : withoutLine(part.samples)));
    edges_Hz.forEach((edges, k) => {
      const bins = seen[k]! ? binsOf(edges, n, rate_Hz) : null;
      if (bins !== null) widen(swings[k]!, swingOfBins(X, bins, part, grids));
    });
  }
  return edges_Hz.map(([low_Hz, high_Hz], k) => {
    const { low, high, lowAt, highAt } = swings[k]!;
    if (!seen[k]!) return { low_Hz, high_Hz, ripple_ratio: null, after_s: null };
    const after_s = high === low ? null : (high >= -low ? highAt : lowAt) / rate_Hz;
    return { low_Hz, high_Hz, ripple_ratio: (high - low) / mean, after_s };
  });
}

/** Lowest and highest value of a band's content, and at which sample; its mean is 0. */
interface ContentSwing {
  low: number;
  high: number;
  lowAt: number;
  highAt: number;
}

function widen(swing: ContentSwing, { low, high, lowAt, highAt }: ContentSwing): void {
  if (low < swing.low) Object.assign(swing, { low, lowAt });
  if (high > swing.high) Object.assign(swing, { high, highAt });
}

/** First and last bin with low ≤ f < high; null where none lies there. */
function binsOf([low_Hz, high_Hz]: BandEdges, n: number, rate_Hz: number): [number, number] | null {
  const perHz = n / rate_Hz;
  const first = Math.max(1, Math.ceil(low_Hz * perHz - edgeSlack_bins));
  const last = Math.min(Math.ceil(high_Hz * perHz - edgeSlack_bins) - 1, Math.floor((n - 1) / 2));
  return last < first ? null : [first, last];
}

/** Room for a wave and its spectrum by their length: pieces of one stretch share it. */
type Grids = Map<number, readonly [ComplexPairs, ComplexPairs]>;

/** Swing of the content of bins first … last of the spectrum X of a piece, over the part of it that counts. */
function swingOfBins(
  X: ComplexPairs,
  [first, last]: [number, number],
  piece: SamplePiece,
  grids: Grids,
): ContentSwing {
  const n = X.length / 2;
  let grid = 8;
  while (grid < pointsPerCycle * last) grid *= 2;
  const room = grids.get(grid) ?? [new Float64Array(2 * grid), new Float64Array(2 * grid)];
  grids.set(grid, room);
  const [Y, y] = room;
  Y.fill(0);
  // The real part of the one-sided sum, doubled, is the real wave; scaled from n samples to the grid.
  for (let k = first; k <= last; k++) {
    Y[2 * k] = (2 * X[2 * k]! * grid) / n;
    Y[2 * k + 1] = (2 * X[2 * k + 1]! * grid) / n;
  }
  inverseInto(y, Y);
  return swingOfWave(y, grid, { from: piece.from_ratio * grid, to: piece.to_ratio * grid }, (j) => {
    return piece.start + (j * n) / grid;
  });
}

/** Lowest and highest value of the real part of a wave that goes round, over a part of it; `sampleOf` its points. */
function swingOfWave(
  y: ComplexPairs,
  count: number,
  { from, to }: { readonly from: number; readonly to: number },
  sampleOf: (j: number) => number,
): ContentSwing {
  let [low, high, lowest, highest] = [0, 0, 0, 0];
  let before = y[2 * (count - 1)]!;
  let here = y[0]!;
  for (let j = 0; j < count; j++) {
    const after = y[j + 1 === count ? 0 : 2 * (j + 1)]!;
    if (j >= from && j < to) {
      if (here >= before && here >= after) {
        const top = vertex(before, here, after);
        if (top > high) [high, highest] = [top, j];
      }
      if (here <= before && here <= after) {
        const bottom = vertex(before, here, after);
        if (bottom < low) [low, lowest] = [bottom, j];
      }
    }
    before = here;
    here = after;
  }
  return { low, high, lowAt: low === 0 ? 0 : sampleOf(lowest), highAt: high === 0 ? 0 : sampleOf(highest) };
}

/** Extreme of the parabola through three neighbours of which the middle one is the outermost. */
function vertex(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  return bend === 0 ? here : here - ((after - before) * (after - before)) / (8 * bend);
}
