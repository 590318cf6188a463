/** Currents of converters at low bus voltage, against the laws written on their pages. Exact, but for rounding. */
import { describe, expect, it } from 'vitest';
import { foldBack_ratio } from '../../src/devices/fold-back.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';

const { trays, stages, intakes, packs, nodeCount, stateCount } = assemble(shippedWith('single-step'));

/** I_bus and 60 % of 50 V. */
const most_A = 420;
const fold_V = 30;

describe('foldBack_ratio()', () => {
  it('is 1 above the fold, straight to 0 V, and 0 below', () => {
    expect(
      [50, 30, 15, 3, 0.3, 0, -20, Number.NEGATIVE_INFINITY].map((v) => foldBack_ratio(1 / 30, v)),
    ).toEqual([1, 1, 0.5, 0.1, 0.01, 0, 0, 0]);
  });
});

describe('a tray', () => {
  it.each([-20e3, 20e3])('carries p/v, then its limit, then less with the voltage: %d W', (p) => {
    const sign = Math.sign(p);
    expect(trays.busCurrent_A(0, p, 50)).toBe(p / 50);
    expect(trays.busCurrent_A(0, p, 45)).toBe(sign * most_A);
    expect(trays.busCurrent_A(0, p, fold_V)).toBe(sign * most_A);
    expect(trays.busCurrent_A(0, p, fold_V / 4)).toBe((sign * most_A) / 4);
    expect(Math.abs(trays.busCurrent_A(0, p, 0))).toBe(0);
    expect(Math.abs(trays.busCurrent_A(0, p, -1000))).toBe(0);
  });

  it('gives or takes exactly its power where no limit holds, and i v where one does', () => {
    for (const p of [-20e3, -7, 0, 12e3, 20e3]) {
      expect(trays.delivered_W(0, p, 50)).toBe(p);
      for (const v of [47, 40, 29, 12, 0.1, 0, -5]) {
        expect(trays.delivered_W(0, p, v)).toBeCloseTo(trays.busCurrent_A(0, p, v) * v, 9);
      }
    }
  });

  it('has no step in its current from one law to the next, and the slope that it states', () => {
    const d = 1e-6;
    for (const p of [-20e3, -3e3, 5e3, 20e3]) {
      for (let v = -10; v < 60; v += 0.37) {
        const here = trays.busCurrent_A(0, p, v);
        expect(Math.abs(trays.busCurrent_A(0, p, v + d) - here)).toBeLessThan(1e-3);
        const slope = -(trays.busCurrent_A(0, p, v + d) - trays.busCurrent_A(0, p, v - d)) / (2 * d);
        expect(Math.abs(trays.slope_S(0, p, v) - slope)).toBeLessThan(1e-3);
      }
    }
  });
});

describe('an output stage', () => {
  const x = new Float64Array(stateCount);
  const v = new Float64Array(nodeCount);

  it('takes its resting current above the fold, less with the voltage below it, nothing at 0 V', () => {
    const dx = new Float64Array(stateCount);
    const k = stages.names.indexOf('S3');
    stages.running[k] = 0;
    stages.rest_A[k] = -500;
    const wanted = (at_V: number): number => {
      v.fill(at_V);
      stages.flow(dx, x, v);
      return dx[stages.offset + k]! * stages.columns.current_lag_s[k]!;
    };
    expect(wanted(50)).toBeCloseTo(-500, 9);
    expect(wanted(15)).toBeCloseTo(-250, 9);
    expect(Math.abs(wanted(0))).toBe(0);
    expect(Math.abs(wanted(-30))).toBe(0);
    stages.rest_A[k] = 0;
    stages.running[k] = 1;
  });

  it('freewheels below 0 V: bulk and pack get nothing back', () => {
    expect(intakes.drawn_W(0, -20, 100)).toBe(intakes.drawn_W(0, 0, 100));
    x[stages.offset + packs.firstStage] = 100;
    v.fill(-20);
    expect(Math.abs(packs.power_W(0, x, v))).toBe(0);
  });
});
