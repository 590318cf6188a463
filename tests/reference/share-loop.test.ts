/**
 * The sampled share loop alone: zⁿᵈ (z − 1) + T_s/τ = 0. Spectral radius and whether it is stable, computed from
 * the recurrence by hand (no outside source); the cabinet's loop has K = (R_d + R_line) I_r/τ, so with its own path
 * resistance it follows the same table.
 */
import { describe, expect, it } from 'vitest';
import { magnitude } from '../../src/linear/complex.ts';
import { Hessenberg } from '../../src/linear/hessenberg.ts';
import { CellWorkshop } from '../../src/studies/gains/cell.ts';
import { shipped } from '../linear/scenario.ts';
import { published } from './published.ts';

const workshop = new CellWorkshop();

function cell(period_ms: number, nd: number, tau_ms: number) {
  return workshop.cell(
    shipped(
      'single-step',
      `firmware.share.period=${period_ms} ms`,
      `firmware.share.latency=${period_ms * nd} ms`,
      `firmware.share.time_constant=${tau_ms} ms`,
      // The table knows no leakage.
      'firmware.share.leak_time=10000 s',
    ),
    200e3,
  );
}

const settlings = published({
  what: 'sampled share loop on the whole cabinet, settling within 2 %',
  source: 'z^n (z − 1) + T/τ = 0, by hand',
  unit: 's',
  absolute: true,
});

const radii = published({
  what: 'sampled share loop alone, spectral radius',
  source: 'z^n (z − 1) + T/τ = 0, by hand',
  absolute: true,
});

type Row = readonly [radius: number, settling_s: number | null, margin_deg: number | null];
const taus_ms = [20, 50, 100, 200, 500];
// T_s [ms], nd, then for each τ: spectral radius, settling within 2 % [s], phase margin [°].
const rows: readonly (readonly [number, number, ...Row[]])[] = [
  [5, 1, [0.5, 0.04, 69], [0.8873, 0.17, 81], [0.9472, 0.37, 86], [0.9743, 0.76, 88], [0.9899, 1.94, 89]],
  [
    10,
    1,
    [Math.SQRT1_2, 0.11, 47],
    [0.7236, 0.14, 73],
    [0.8873, 0.34, 81],
    [0.9472, 0.74, 86],
    [0.9796, 1.91, 88],
  ],
  [10, 2, [0.9406, 0.66, 18], [0.7249, 0.15, 61], [0.867, 0.3, 76], [0.9439, 0.7, 83], [0.9791, 1.88, 87]],
  [20, 2, [1.151, null, null], [0.8822, 0.64, 33], [0.7249, 0.3, 61], [0.867, 0.6, 76], [0.9563, 1.8, 84]],
  [
    50,
    1,
    [1.5811, null, null],
    [1, null, null],
    [Math.SQRT1_2, 0.55, 47],
    [0.5, 0.45, 69],
    [0.8873, 1.7, 81],
  ],
];

/** Largest magnitude of the roots of zⁿᵈ (z − 1) + T/τ = 0, from the companion matrix. */
function recurrence(gain: number, nd: number): number {
  const n = nd + 1;
  const A = new Float64Array(n * n);
  A[0] = 1;
  A[n - 1] = -gain;
  for (let k = 1; k < n; k++) A[k * n + k - 1] = 1;
  return Math.max(...new Hessenberg(A, n).eigenvalues().map(magnitude));
}

describe('the share loop on the whole cabinet', () => {
  it.each(rows.flatMap(([T, nd, ...cells]) => cells.map((row, k) => [T, nd, taus_ms[k]!, ...row] as const)))(
    'T_s %d ms, %d late, τ %d ms: radius %d, settling within 2 %% in %s s',
    (T, nd, tau, radius, settling, margin) => {
      const which = `T ${T} ms, ${nd} late, τ ${tau} ms`;
      radii({ which, expected: radius, found: recurrence(T / tau, nd), tolerance: 1e-4 });
      if (radius === 1) return;
      const { stable, settling_s } = cell(T, nd, tau);
      expect(stable).toBe(radius < 1);
      // The bars' part of the loop differs from shelf to shelf: a sixth, and four periods. A loop of small margin
      // shows that part many times over and is held to nothing but its stability.
      if (settling === null || margin === null || margin < 60) return;
      settlings({
        which,
        expected: settling,
        found: settling_s!,
        tolerance: settling / 6 + (4 * T) / 1e3,
      });
    },
  );

  it('is at its limit at T_s 50 ms, one late, τ 50 ms: growth or decay below 2 1/s', () => {
    const { growth_per_s } = cell(50, 1, 50);
    expect(Math.abs(growth_per_s!)).toBeLessThan(2);
  });
});
