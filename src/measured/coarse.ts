/**
 * Coarse placing: a measurement is compared with the whole run by shape, at every place at once. Samples are put
 * into cells of a common grid, cells without one count for nothing (so gaps and slow meters need no values in between),
 * and the sums that an agreement is made of are correlations, which a Fourier transform gives for all places.
 */
import { complexOf, inverse, transform } from '../analysis/signal/fourier.ts';
import { agreementOf, leastInside } from './agreement.ts';
import type { MeasuredPair } from './pair.ts';

/** Cells of the run and the measurement together, at most. */
const mostCells = 2 ** 18;
/** Cells are no shorter [s]: a place within them is found by the fine search. */
export const finestCell_s = 1e-3;
/** Points of the run that a cell's mean is taken from. */
const pointsPerCell = 8;

export interface Coarse {
  /** Time of the run at the first stamp for the first place, and from one place to the next [s]. */
  readonly first_s: number;
  readonly step_s: number;
  /** ln of the likelihood gained at each place, all columns together. */
  readonly gained: Float64Array;
}

export function compareEverywhere(pairs: readonly MeasuredPair[]): Coarse {
  const length_s = Math.max(...pairs.map(({ time_s }) => time_s.at(-1)!));
  const from_s = Math.min(...pairs.map(({ shown }) => shown.from_s));
  const span_s = Math.max(...pairs.map(({ shown }) => shown.to_s)) - from_s;
  const step_s = Math.max(finestCell_s, (span_s + length_s) / mostCells);
  const runCells = Math.max(1, Math.floor(span_s / step_s));
  const cells = Math.floor(length_s / step_s) + 1;
  const places = runCells + cells - 1;
  const gained = new Float64Array(places);
  let size = 2;
  while (size < places + 1) size *= 2;
  for (const pair of pairs) addColumn(gained, pair, { from_s, step_s, runCells, cells, size });
  return { first_s: from_s - (cells - 1) * step_s, step_s, gained };
}

interface CoarseGrid {
  readonly from_s: number;
  readonly step_s: number;
  readonly runCells: number;
  readonly cells: number;
  readonly size: number;
}

/** Place p lays cell 0 of the measurement over cell p − (cells − 1) of the run. */
function addColumn(
  gained: Float64Array,
  pair: MeasuredPair,
  { from_s, step_s, runCells, cells, size }: CoarseGrid,
): void {
  const { run, level: runLevel } = runMeans(pair, { from_s, step_s }, runCells, size);
  const { mean, filled, level } = measuredMeans(pair, step_s, cells, size);
  const squared = run.map((value) => value * value);
  const R = transform(complexOf(run));
  const ofFilled = transform(complexOf(filled));
  const s = correlate(R, ofFilled);
  const ss = correlate(transform(complexOf(squared)), ofFilled);
  const sm = correlate(R, transform(complexOf(mean)));
  const [n, m, mm] = [sumsUpTo(filled), sumsUpTo(mean), sumsUpTo(mean.map((value) => value * value))];
  const total = n[cells]!;
  const least = Math.max(4, leastInside * total * Math.min(1, runCells / cells));
  for (let p = 0; p < gained.length; p++) {
    const shift = p - (cells - 1);
    const from = Math.max(0, -shift);
    const to = Math.min(cells, runCells - shift);
    const count = n[to]! - n[from]!;
    if (count < least) continue;
    const at = (shift + size) % size;
    const sums = {
      n: count,
      s: s[at]!,
      m: m[to]! - m[from]!,
      ss: ss[at]!,
      mm: mm[to]! - mm[from]!,
      sm: sm[at]!,
      apart: level - runLevel,
    };
    gained[p] = gained[p]! + agreementOf(sums, pair.noise, pair.within).gained;
  }
}

/** Means of what is shown by cells, less the mean of all; 0, which is that mean, where nothing is shown. */
function runMeans(
  { shown }: MeasuredPair,
  { from_s, step_s }: Pick<CoarseGrid, 'from_s' | 'step_s'>,
  cells: number,
  size: number,
): { readonly run: Float64Array; readonly level: number } {
  const out = new Float64Array(size).fill(Number.NaN, 0, cells);
  let [level, known] = [0, 0];
  for (let k = 0; k < cells; k++) {
    let sum = 0;
    for (let j = 0; j < pointsPerCell; j++)
      sum += shown.at(from_s + (k + (j + 0.5) / pointsPerCell) * step_s);
    if (Number.isNaN(sum)) continue;
    out[k] = sum / pointsPerCell;
    level += out[k]!;
    known++;
  }
  level /= Math.max(1, known);
  for (let k = 0; k < cells; k++) out[k] = Number.isNaN(out[k]!) ? 0 : out[k]! - level;
  return { run: out, level };
}

function measuredMeans({ time_s, values }: MeasuredPair, step_s: number, cells: number, size: number) {
  const level = values.reduce((sum, value) => sum + value, 0) / values.length;
  const mean = new Float64Array(size);
  const filled = new Float64Array(size);
  for (let i = 0; i < values.length; i++) {
    const k = Math.min(cells - 1, Math.max(0, Math.floor(time_s[i]! / step_s)));
    mean[k] = mean[k]! + values[i]! - level;
    filled[k] = filled[k]! + 1;
  }
  for (let k = 0; k < cells; k++) {
    if (filled[k]! === 0) continue;
    mean[k] = mean[k]! / filled[k]!;
    filled[k] = 1;
  }
  return { mean, filled, level };
}

/** Σ x[k + shift] y[k] for every shift, counted round. */
function correlate(X: Float64Array, Y: Float64Array): Float64Array {
  const product = new Float64Array(X.length);
  for (let k = 0; k < X.length; k += 2) {
    product[k] = X[k]! * Y[k]! + X[k + 1]! * Y[k + 1]!;
    product[k + 1] = X[k + 1]! * Y[k]! - X[k]! * Y[k + 1]!;
  }
  const out = inverse(product);
  return Float64Array.from({ length: out.length / 2 }, (_, k) => out[2 * k]!);
}

/** Sums of the values before each place. */
function sumsUpTo(values: Float64Array): Float64Array {
  const out = new Float64Array(values.length + 1);
  for (let k = 0; k < values.length; k++) out[k + 1] = out[k]! + values[k]!;
  return out;
}

/** Most hills that are looked at. */
const mostHills = 40;

/**
 * Places of the highest hills, highest first. A hill counts where the way to every higher one leads at least `depth`
 * down: what is shallower is noise on one and the same hill.
 */
export function hillsOf({ first_s, step_s, gained }: Coarse, depth: number): number[] {
  const tops: number[] = [];
  for (let k = 0; k < gained.length; k++) {
    const top = gained[k]!;
    if (top > depth && top >= (gained[k - 1] ?? 0) && top > (gained[k + 1] ?? 0)) tops.push(k);
  }
  tops.sort((a, b) => gained[b]! - gained[a]!);
  const kept: number[] = [];
  for (const k of tops) {
    if (kept.length === mostHills) break;
    if (kept.every((other) => lowestBetween(gained, k, other) < gained[k]! - depth)) kept.push(k);
  }
  return kept.map((k) => first_s + k * step_s);
}

function lowestBetween(gained: Float64Array, a: number, b: number): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (let k = Math.min(a, b); k <= Math.max(a, b); k++) lowest = Math.min(lowest, gained[k]!);
  return lowest;
}
