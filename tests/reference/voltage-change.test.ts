/**
 * Voltage change at the point of connection. Worked: 10 A in phase on 230 V through 0.4 Ω is 4 V of 230 V,
 * 1.7391 % (Ohm's law; 0.4 + j0.25 Ω is the reference impedance of IEC 60725 for a single phase).
 */

import { describe, expect, it } from 'vitest';
import { ofAll } from '../../src/analysis/grid/cabinets.ts';
import { fallPerWatt } from '../../src/analysis/grid/supply.ts';
import { changeKept, largestChange, steadyChange } from '../../src/analysis/grid/voltage-change.ts';
import { columnOf } from '../../src/analysis/signal/samples.ts';
import { reactivePerActive } from '../../src/scenario/derived/supply-impedance.ts';
import { published } from './published.ts';

const supply = (R: number, X: number) => ({
  short_circuit_power_VA: 230 ** 2 / Math.hypot(R, X),
  reactance_ratio: X / R,
});

const falls = published({
  what: 'voltage change of a resistive step',
  source: "Ohm's law; 0.4 + j0.25 Ω of IEC 60725",
});

describe('fall of the voltage per watt', () => {
  it('is that of the resistance for a load in phase', () => {
    const [expected, tolerance] = [4 / 230, 1e-9];
    falls({
      which: '10 A, 230 V, 0.4 Ω',
      expected,
      found: 2300 * fallPerWatt(supply(0.4, 1e-12), 0),
      tolerance,
    });
    // In phase the reactance takes no part in the first order.
    falls({
      which: '10 A, 230 V, 0.4 + j0.25 Ω',
      expected,
      found: 2300 * fallPerWatt(supply(0.4, 0.25), 0),
      tolerance,
    });
  });

  it('adds the reactance times the reactive power: ΔV = R I cos φ + X I sin φ', () => {
    const [R, X, pf, I] = [0.4, 0.25, 0.8, 10];
    const expected = (R * I * pf + X * I * Math.sqrt(1 - pf * pf)) / 230;
    expect(230 * I * pf * fallPerWatt(supply(R, X), reactivePerActive(pf))).toBeCloseTo(expected, 12);
  });
});

describe('changes of half-cycle values', () => {
  const step = Float64Array.from({ length: 1000 }, (_, j) => (j < 400 ? 0 : j < 430 ? 0.05 : 0.03));

  it('d_max is the overshoot, d_c the step', () => {
    expect(largestChange(step, 0, 0.01)!.value).toBeCloseTo(0.05, 12);
    expect(largestChange(step, 0, 0.01)!.time_s).toBeCloseTo(4.01, 9);
    // Adjacent means over 1 s: 0.3 s of the overshoot are in the second mean.
    expect(steadyChange(step, 0, 0.01)!.value).toBeCloseTo(0.036, 12);
  });

  it('a change shorter than half a second is not kept', () => {
    const blip = Float64Array.from({ length: 1000 }, (_, j) => (j >= 400 && j < 449 ? 0.05 : 0));
    const longer = Float64Array.from({ length: 1000 }, (_, j) => (j >= 400 && j < 450 ? 0.05 : 0));
    const mean = 0.05 * 0.049;
    expect(changeKept(blip, 0, 0.01, 0.5)!.value).toBeCloseTo(mean, 9);
    expect(changeKept(longer, 0, 0.01, 0.5)!.value).toBeCloseTo(0.05 - 0.05 * 0.05, 9);
  });
});

describe('many cabinets on one feeder', () => {
  const one = Float64Array.from([1, 3]);
  it('add their swings together, or by squares', () => {
    const four = (coincidence: 'together' | 'independent') => {
      return [...columnOf(ofAll(one, { cabinets_on_feeder_count: 4, coincidence }))];
    };
    expect(four('together')).toEqual([4, 12]);
    expect(four('independent')).toEqual([6, 10]);
  });
});
