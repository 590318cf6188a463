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
import { BandWaves } from './band-wave.ts';
import { meanOf } from './detrend.ts';
import type { ComplexPairs } from './fourier.ts';
import type { SamplePiece } from './pieces.ts';
import { readSpectra, type SpectrumReader } from './spectra.ts';

export type BandEdges = readonly [low_Hz: number, high_Hz: number];

export const bandEdges_Hz: readonly BandEdges[] = [
  [0.1, 0.5],
  [0.5, 3],
  [3, 20],
  [20, 300],
];

/** Edges that fall on a bin but for rounding count as on it. */
const edgeSlack_bins = 1e-6;

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
  const swings = new BandSwings(samples, rate_Hz, edges_Hz, endless);
  readSpectra(samples, wholePeriods, [swings]);
  return swings.read();
}

/** The same, of spectra that others read as well. */
export class BandSwings implements SpectrumReader {
  private readonly rate_Hz: number;
  private readonly edges_Hz: readonly BandEdges[];
  private readonly mean: number;
  /** Which bands the stretch is long and fast enough for. */
  private readonly seen: readonly boolean[];
  private readonly swings: readonly ContentSwing[];
  private readonly waves = new BandWaves();

  constructor(samples: Float64Array, rate_Hz: number, edges_Hz: readonly BandEdges[], endless: boolean) {
    const duration_s = samples.length / rate_Hz;
    this.rate_Hz = rate_Hz;
    this.edges_Hz = edges_Hz;
    this.mean = meanOf(samples);
    this.seen = edges_Hz.map(([low_Hz]) => {
      const long = endless || duration_s * low_Hz >= 2 * (1 - 1e-9);
      return long && this.mean > 0 && rate_Hz / 2 > low_Hz;
    });
    this.swings = edges_Hz.map(() => ({ low: 0, high: 0, lowAt: 0, highAt: 0 }));
  }

  take(X: ComplexPairs, piece: SamplePiece): void {
    const n = piece.samples.length;
    this.edges_Hz.forEach((edges, k) => {
      const bins = this.seen[k]! ? binsOf(edges, n, this.rate_Hz) : null;
      if (bins === null) return;
      const wave = this.waves.wave(X, n, bins[0], bins[1]);
      widen(this.swings[k]!, swingOfWave(wave, piece));
    });
  }

  read(): BandSwing[] {
    return this.edges_Hz.map(([low_Hz, high_Hz], k) => {
      const { low, high, lowAt, highAt } = this.swings[k]!;
      if (!this.seen[k]!) return { low_Hz, high_Hz, ripple_ratio: null, after_s: null };
      const after_s = high === low ? null : (high >= -low ? highAt : lowAt) / this.rate_Hz;
      return { low_Hz, high_Hz, ripple_ratio: (high - low) / this.mean, after_s };
    });
  }
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

/** Lowest and highest value of a wave that goes round, over the part of it that counts for a piece. */
function swingOfWave(wave: ComplexPairs, piece: SamplePiece): ContentSwing {
  const count = wave.length;
  // In pairs of w and −w.
  const at = (j: number): number => (j % 2 === 0 ? wave[j]! : -wave[j]!);
  const first = Math.ceil(piece.from_ratio * count);
  const end = Math.ceil(piece.to_ratio * count);
  let [low, high, lowest, highest] = [0, 0, 0, 0];
  let before = at(first === 0 ? count - 1 : first - 1);
  let here = at(first);
  for (let j = first; j < end; j++) {
    const after = at(j + 1 === count ? 0 : j + 1);
    if (here >= before && here >= after) {
      const top = vertex(before, here, after);
      if (top > high) [high, highest] = [top, j];
    }
    if (here <= before && here <= after) {
      const bottom = vertex(before, here, after);
      if (bottom < low) [low, lowest] = [bottom, j];
    }
    before = here;
    here = after;
  }
  const sampleOf = (j: number): number => piece.start + (j * piece.samples.length) / count;
  return { low, high, lowAt: low === 0 ? 0 : sampleOf(lowest), highAt: high === 0 ? 0 : sampleOf(highest) };
}

/** Extreme of the parabola through three neighbours of which the middle one is the outermost. */
function vertex(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  return bend === 0 ? here : here - ((after - before) * (after - before)) / (8 * bend);
}
