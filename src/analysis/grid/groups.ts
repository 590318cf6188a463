/**
 * Spectral groups of a line current: rectangular windows of 10 cycles (50 Hz) or 12 (60 Hz), 5 Hz apart.
 *
 *   group      G_g,h² = ½ C²(Nh − N/2) + Σ C²(Nh + k), |k| < N/2, + ½ C²(Nh + N/2)
 *   subgroup   G_sg,h² = Σ C²(Nh + k), |k| ≤ 1
 *   between    G_ig,h² = Σ C²(Nh + k), 1 ≤ k ≤ N − 1;     centred: 2 ≤ k ≤ N − 2
 * C: RMS of a bin, N: cycles of a window. A value is the RMS over all windows of the stretch.
 * Source: IEC 61000-4-7:2002 + A1:2008, clauses 3.2, 5.5 and annex A.
 */

import { multiply } from '../../dense/dense.ts';
import type { GroupRow, Groups } from '../judge/report.ts';
import { readInto, type Samples } from '../signal/samples.ts';
import { turnsOf } from '../signal/turns.ts';

/** Cycles of a window, or null where the standard has none for this frequency. */
export function windowCycles(line_Hz: number): number | null {
  if (Math.abs(line_Hz - 50) < 1e-9) return 10;
  return Math.abs(line_Hz - 60) < 1e-9 ? 12 : null;
}

/**
 * Groups up to `orders` of samples at a rate that gives a window whole samples. null where the stretch is
 * shorter than a window, or no window fits the rate.
 */
export function groupsOf(
  current_A: Samples,
  rate_Hz: number,
  line_Hz: number,
  orders: number,
): Groups | null {
  const cycles = windowCycles(line_Hz);
  if (cycles === null) return null;
  const length = (cycles / line_Hz) * rate_Hz;
  const n = Math.round(length);
  if (Math.abs(length - n) > 1e-6 * n || current_A.length < n) return null;
  const windows = Math.floor(current_A.length / n);
  const top = cycles * (orders + 1);
  if (2 * top >= n)
    throw new RangeError(`${orders} orders need more than ${2 * top} samples a window, not ${n}`);
  const squares = meanSquares(current_A, windows, n, top + 1);
  const sum = (from: number, to: number): number => sumOf(squares, from, to);
  const rows = Array.from({ length: orders + 1 }, (_, order): GroupRow => {
    const at = order * cycles;
    const half = cycles / 2;
    const edges = order === 0 ? 0 : (squares[at - half]! + squares[at + half]!) / 2;
    return {
      order,
      group_A: order === 0 ? null : Math.sqrt(edges + sum(at - half + 1, at + half - 1)),
      subgroup_A: order === 0 ? null : Math.sqrt(sum(at - 1, at + 1)),
      between_A: Math.sqrt(sum(at + 1, at + cycles - 1)),
      centred_A: Math.sqrt(sum(at + 2, at + cycles - 2)),
    };
  });
  return {
    windows_count: windows,
    cycles_count: cycles,
    bin_Hz: rate_Hz / n,
    bins_A: Array.from(squares, Math.sqrt),
    rows,
  };
}

/** Windows that are summed up at once. */
const atOnce = 32;

/**
 * C² of the first `bins` bins, the mean over so many windows of n samples. The sums written out, of many windows as a product
 * of matrices: a third of the bins of a short window takes less than a transform of all.
 */
function meanSquares(samples: Samples, windows: number, n: number, bins: number): Float64Array {
  const waves = wavesOf(n, bins);
  const squares = new Float64Array(bins);
  const room = new Float64Array(Math.min(atOnce, windows) * n);
  const sums = new Float64Array(Math.min(atOnce, windows) * 2 * bins);
  for (let first = 0; first < windows; first += atOnce) {
    const rows = Math.min(atOnce, windows - first);
    const some = room.subarray(0, rows * n);
    readInto(some, samples, first * n);
    const X = sums.subarray(0, rows * 2 * bins);
    multiply(X, some, waves, rows, n, 2 * bins);
    for (let w = 0; w < rows; w++) {
      for (let k = 0; k < bins; k++) {
        const sides = k === 0 ? 1 : 2;
        const re = X[2 * (w * bins + k)]!;
        const im = X[2 * (w * bins + k) + 1]!;
        squares[k]! += (sides * (re * re + im * im)) / (n * n) / windows;
      }
    }
  }
  return squares;
}

/** A row for each of n samples: cosine and sine of its angle in each bin. */
function wavesOf(n: number, bins: number): Float64Array {
  const turns = turnsOf(n, n - 1);
  const waves = new Float64Array(2 * n * bins);
  let at = 0;
  for (let j = 0; j < n; j++) {
    let turn = 0;
    for (let k = 0; k < bins; k++) {
      waves[at++] = turns[2 * turn]!;
      waves[at++] = turns[2 * turn + 1]!;
      turn += j;
      if (turn >= n) turn -= n;
    }
  }
  return waves;
}

/** Sum of the values from one place to another, both included. */
function sumOf(values: Float64Array, from: number, to: number): number {
  let total = 0;
  for (let k = from; k <= to; k++) total += values[k]!;
  return total;
}
