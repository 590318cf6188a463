/**
 * Spectral groups of a line current: rectangular windows of 10 cycles (50 Hz) or 12 (60 Hz), 5 Hz apart.
 *
 *   group      G_g,h² = ½ C²(Nh − N/2) + Σ C²(Nh + k), |k| < N/2, + ½ C²(Nh + N/2)
 *   subgroup   G_sg,h² = Σ C²(Nh + k), |k| ≤ 1
 *   between    G_ig,h² = Σ C²(Nh + k), 1 ≤ k ≤ N − 1;     centred: 2 ≤ k ≤ N − 2
 * C: RMS of a bin, N: cycles of a window. A value is the RMS over all windows of the stretch.
 * Source: IEC 61000-4-7:2002 + A1:2008, clauses 3.2, 5.5 and annex A.
 */

import type { GroupRow, Groups } from '../judge/report.ts';
import { complexOf, transform } from '../signal/fourier.ts';
import { readInto, type Samples } from '../signal/samples.ts';

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
  const squares = new Float64Array(top + 1);
  const window = new Float64Array(n);
  for (let w = 0; w < windows; w++) {
    readInto(window, current_A, w * n);
    const X = transform(complexOf(window));
    for (let k = 0; k <= top; k++) {
      const sides = k === 0 ? 1 : 2;
      squares[k]! += (sides * (X[2 * k]! ** 2 + X[2 * k + 1]! ** 2)) / (n * n) / windows;
    }
  }
  const sum = (from: number, to: number): number => {
    let total = 0;
    for (let k = from; k <= to; k++) total += squares[k]!;
    return total;
  };
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
