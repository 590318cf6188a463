/**
 * The sampled share loop alone: zⁿᵈ (z − 1) + T_s/τ = 0. Spectral radius and whether it is stable, computed from
 * the recurrence by hand (no outside source); the cabinet's loop has K = (R_d + R_line) I_r/τ, so with its own path
 * resistance it follows the same table.
 */
import { describe, expect, it } from 'vitest';
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

describe('the share loop on the whole cabinet', () => {
  // T_s [ms], nd, τ [ms], settling within 2 % [s]
  it.each([
    [10, 1, 100, 0.34],
    [10, 1, 200, 0.74],
    [10, 2, 100, 0.3],
    [20, 2, 100, 0.3],
    [20, 2, 200, 0.6],
  ])('T_s %d ms, %d late, τ %d ms settles in about %d s', (T, nd, tau, settling) => {
    const { stable, settling_s } = cell(T, nd, tau);
    expect(stable).toBe(true);
    // The bars' part of the loop differs from shelf to shelf: a tenth, and two periods.
    settlings({
      which: `T ${T} ms, ${nd} late, τ ${tau} ms`,
      expected: settling,
      found: settling_s!,
      tolerance: 0.1 * settling + (2 * T) / 1e3,
    });
  });

  it.each([
    [20, 2, 20, false],
    [50, 1, 20, false],
    [10, 2, 20, true],
    [50, 1, 100, true],
  ])('T_s %d ms, %d late, τ %d ms: stable is %s', (T, nd, tau, stable) => {
    expect(cell(T, nd, tau).stable).toBe(stable);
  });

  it('is at its limit at T_s 50 ms, one late, τ 50 ms: growth or decay below 2 1/s', () => {
    const { growth_per_s } = cell(50, 1, 50);
    expect(Math.abs(growth_per_s!)).toBeLessThan(2);
  });
});
