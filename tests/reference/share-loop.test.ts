/**
 * The sampled share loop alone: zⁿᵈ (z − 1) + T_s/τ = 0. Spectral radius and whether it is stable, computed from
 * the recurrence by hand (no outside source). The share task has K = (R_d + R_line) I_r/τ, so on shelves whose currents
 * follow their trims at once through R_d + R_line it is that recurrence; on the whole cabinet it comes near it.
 */
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { stageMode } from '../../src/devices/stage/stage.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { magnitude } from '../../src/linear/complex.ts';
import { Hessenberg } from '../../src/linear/hessenberg.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { CellWorkshop } from '../../src/studies/gains/cell.ts';
import { shipped } from '../linear/scenario.ts';
import { published } from './published.ts';

const workshop = new CellWorkshop();

function cell(period_ms: number, nd: number, tau_ms: number) {
  return workshop.cell(shipped('single-step', ...settings(period_ms, nd, tau_ms)), 200e3);
}

function settings(period_ms: number, nd: number, tau_ms: number): string[] {
  return [
    `firmware.share.period=${period_ms} ms`,
    `firmware.share.latency=${period_ms * nd} ms`,
    `firmware.share.time_constant=${tau_ms} ms`,
    // The table knows no leakage.
    'firmware.share.leak_time=10000 s',
  ];
}

const settlings = published({
  what: 'sampled share loop alone, settling within 2 %',
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

/**
 * The share task itself, every shelf at once as the trims say and half its rated current apart from that: the difference
 * between the trims of the first two from a jump of the first one's on, one value per period [V].
 */
function walk(period_ms: number, nd: number, tau_ms: number): number[] {
  const scenario = shipped(
    'single-step',
    ...settings(period_ms, nd, tau_ms),
    'firmware.share.trim_quantum=0 V',
    'firmware.share.dead_band=0 %',
  );
  const { controls, network, stepper } = ready(assemble(scenario), makeDemand(scenario), 1, 'plain');
  const { share } = controls;
  const { stages } = network;
  const count = share.trim_V.length;
  stages.mode.fill(stageMode.linear);
  const respond = (): void => {
    const mean = share.trim_V.reduce((sum, u) => sum + u, 0) / count;
    for (let k = 0; k < count; k++) {
      const path_ohm = stages.staticDroop_ohm(k) + scenario.firmware.share.path_resistance_ohm;
      const i = stages.columns.rated_A[k]! / 2 + (share.trim_V[k]! - mean) / path_ohm;
      stepper.x0[stages.offset + k] = i;
    }
  };
  share.trim_V.fill(0);
  respond();
  share.signal.settle();
  share.trim_V[0] = 1e-3;
  const out = [share.trim_V[0] - share.trim_V[1]!];
  for (let n = 0; n < 400; n++) {
    respond();
    share.signal.sample();
    share.run(n);
    out.push(share.trim_V[0]! - share.trim_V[1]!);
  }
  return out;
}

/**
 * Spectral radius of the recurrence of order nd + 1 that a sequence follows, d_n = Σ a_j d_(n−j): its coefficients from
 * the first values, then the roots of z^(nd+1) = Σ a_j z^(nd+1−j) from the companion matrix.
 */
function radiusOf(d: readonly number[], nd: number): number {
  const order = nd + 1;
  const rows = Array.from({ length: order }, (_, r) => nd + 1 + r);
  const past = rows.map((n) => Array.from({ length: order }, (_, j) => d[n - 1 - j]!));
  const a = solve(new Matrix(past), Matrix.columnVector(rows.map((n) => d[n]!))).to1DArray();
  const A = new Float64Array(order * order);
  A.set(a);
  for (let k = 1; k < order; k++) A[k * order + k - 1] = 1;
  return Math.max(...new Hessenberg(A, order).eigenvalues().map(magnitude));
}

/** The recurrence itself, d_(n+1) = d_n − (T/τ) d_(n−nd), from a jump that nothing has answered yet. */
function recurrence(period_ms: number, nd: number, tau_ms: number): number[] {
  const d = [1];
  for (let n = 0; n < 400; n++) d.push(d[n]! - (period_ms / tau_ms) * (n < nd ? 0 : d[n - nd]!));
  return d;
}

/** Periods until the sequence stays within 2 % of its jump. */
function settledAfter(d: readonly number[]): number {
  return d.findLastIndex((x) => Math.abs(x) > 0.02 * Math.abs(d[0]!)) + 1;
}

const cases = rows.flatMap(([T, nd, ...cells]) =>
  cells.map((row, k) => [T, nd, taus_ms[k]!, ...row] as const),
);

describe('the share task alone', () => {
  it.each(cases)(
    'T_s %d ms, %d late, τ %d ms: radius %d, settled to a fiftieth in %s s',
    (T, nd, tau, radius, settling) => {
      const which = `T ${T} ms, ${nd} late, τ ${tau} ms`;
      const d = walk(T, nd, tau);
      radii({ which, expected: radius, found: radiusOf(d, nd), tolerance: 1e-4 });
      if (settling === null) return;
      // To the period; the table is rounded to 10 ms.
      expect(settledAfter(d)).toBe(settledAfter(recurrence(T, nd, tau)));
      settlings({ which, expected: settling, found: (settledAfter(d) * T) / 1e3, tolerance: 5e-3 + 1e-9 });
    },
  );
});

describe('the share loop on the whole cabinet', () => {
  it.each(cases)(
    'T_s %d ms, %d late, τ %d ms: radius %d, settled to a fiftieth in %s s',
    (T, nd, tau, radius, settling, margin) => {
      if (radius === 1) return;
      const { stable, settling_s } = cell(T, nd, tau);
      expect(stable).toBe(radius < 1);
      // The bars' part of the loop differs from shelf to shelf: a sixth, in loops slower than the bars and of a margin
      // that does not show that part many times over.
      if (settling === null || margin === null || margin < 60 || tau < 100) return;
      expect(Math.abs(settling_s! - settling)).toBeLessThan(settling / 6);
    },
  );

  it('is at its limit at T_s 50 ms, one late, τ 50 ms: growth or decay below 2 1/s', () => {
    const { growth_per_s } = cell(50, 1, 50);
    expect(Math.abs(growth_per_s!)).toBeLessThan(2);
  });
});
