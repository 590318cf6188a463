/** Margins of loops that can be worked out by hand; the source stands beside each. */
import { describe, expect, it } from 'vitest';
import type { Complex } from '../../../src/linear/complex.ts';
import { over, times } from '../../../src/linear/complex.ts';
import { logFrequencies } from '../../../src/linear/curves.ts';
import { gainOfClearance_dB } from '../../../src/linear/loops/disk.ts';
import { type LoopAt, marginsOf } from '../../../src/linear/loops/margins.ts';

const grid = logFrequencies(0.01, 100, 40);
/** From where a locus that is real at 0 Hz still is. */
const slow = logFrequencies(1e-4, 100, 60);
const dB = (ratio: number): number => 20 * Math.log10(ratio);

/** K/(s (s + 1)(s + 2)), s = 2πjf: unstable above K = 6 at √2 rad/s (Routh). */
const third =
  (K: number): LoopAt =>
  (frequency_Hz) => {
    const w = 2 * Math.PI * frequency_Hz;
    const s: Complex = { re: 0, im: w };
    const below = times(times(s, { re: 1, im: w }), { re: 2, im: w });
    return [[over({ re: K, im: 0 }, below)]];
  };

describe('marginsOf()', () => {
  it('finds the gain of the Routh array, and the phase and delay that the unit circle leaves', () => {
    const {
      gain_margin_dB,
      phase_crossover_Hz,
      crossover_Hz,
      phase_margin_deg,
      delay_margin_s,
      gain_down_dB,
    } = marginsOf(third(2), grid, 0);
    expect(gain_margin_dB).toBeCloseTo(dB(3), 6);
    expect(phase_crossover_Hz).toBeCloseTo(Math.SQRT2 / (2 * Math.PI), 6);
    expect(gain_down_dB).toBe(null);
    // |L| = 1: w² (w² + 1)(w² + 4) = 4, w = 0.749, by hand with its phase −90° − atan w − atan w/2.
    const w = 2 * Math.PI * crossover_Hz!;
    expect(w * w * (w * w + 1) * (w * w + 4)).toBeCloseTo(4, 5);
    expect(phase_margin_deg).toBeCloseTo(90 - ((Math.atan(w) + Math.atan(w / 2)) * 180) / Math.PI, 4);
    expect(delay_margin_s).toBeCloseTo((phase_margin_deg! * Math.PI) / 180 / w, 6);
  });

  it('has none for an unstable loop, but says how far down it is stable again', () => {
    const unstable = marginsOf(third(12), grid, 2);
    expect(unstable.stable_at_dB).toBeCloseTo(-dB(2), 6);
    const { stable_at_dB, ...margins } = unstable;
    expect(new Set(Object.values(margins))).toEqual(new Set([null]));
  });

  it('of two loops that cross finds what neither shows by itself', () => {
    // (0 9; 1 0) over (s + 1)³: eigenvalues ±3, diagonals 0. A gain of 8 at √3 rad/s takes the locus −3… to −1; +3 to 8/3.
    const at: LoopAt = (frequency_Hz) => {
      const one = { re: 1, im: 2 * Math.PI * frequency_Hz };
      const lag = over({ re: 1, im: 0 }, times(one, times(one, one)));
      return [
        [
          { re: 0, im: 0 },
          { re: 9 * lag.re, im: 9 * lag.im },
        ],
        [lag, { re: 0, im: 0 }],
      ];
    };
    // 1 − 9 k²/(s + 1)⁶ = 0: (s + 1)³ = ±3 k. With −: s³ + 3 s² + 3 s + 1 + 3 k, stable up to 3 k = 8 (Routh); with +:
    // up to 3 k = 1.
    const { stable_at_dB } = marginsOf(at, slow, 1);
    expect(stable_at_dB).toBeCloseTo(-dB(3), 3);
    const half: LoopAt = (frequency_Hz) =>
      at(frequency_Hz).map((row) => row.map(({ re, im }) => ({ re: re / 6, im: im / 6 })));
    const { gain_margin_dB, phase_crossover_Hz, clearance_ratio, disk_gain_dB } = marginsOf(half, slow, 0);
    expect(gain_margin_dB).toBeCloseTo(dB(2), 3);
    expect(phase_crossover_Hz).toBe(0);
    expect(gainOfClearance_dB(clearance_ratio!)).toBeLessThanOrEqual(gain_margin_dB! + 1e-3);
    expect(disk_gain_dB).toBeLessThanOrEqual(gain_margin_dB! + 1e-3);
    // Weighed by a diagonal the two are alike, and the least singular value is 1 − 1/2 all the same.
    expect(clearance_ratio).toBeCloseTo(0.5, 3);
  });

  it('does not depend on the grid it begins from', () => {
    const [coarse, fine] = [
      marginsOf(third(2), logFrequencies(0.01, 100, 17), 0),
      marginsOf(third(2), logFrequencies(0.01, 100, 400), 0),
    ];
    for (const key of [
      'gain_margin_dB',
      'phase_margin_deg',
      'delay_margin_s',
      'clearance_ratio',
      'disk_ratio',
    ] as const)
      expect(Math.abs(coarse[key]! / fine[key]! - 1)).toBeLessThan(1e-4);
  });
});
