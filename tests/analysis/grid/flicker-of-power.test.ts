import { expect, test } from 'vitest';
import { energyShare } from '../../../src/analysis/grid/energy-share.ts';
import { longTermOf, shortTermOfCycle, shortTerms } from '../../../src/analysis/grid/flicker-of-power.ts';

const rate_Hz = 1000;
const pulses = (seconds: number): Float64Array =>
  Float64Array.from({ length: seconds * rate_Hz }, (_, j) => ((j / 1600) % 1 < 0.7 ? 240e3 : 100e3));

test('a cycle played round and round gives what ten minutes of it give', () => {
  const estimate = shortTermOfCycle(pulses(16), rate_Hz, 50, 2e-8);
  const [measured] = shortTerms(pulses(600), rate_Hz, 50, 2e-8);
  expect(Math.abs(estimate / measured! - 1)).toBeLessThan(0.01);
  // 37.5 pulses a minute, 75 changes of 0.28 %: between 0.894 % and 0.722 % of change for P_st = 1.
  expect(measured!).toBeGreaterThan(0.28 / 0.894);
  expect(measured!).toBeLessThan(0.28 / 0.722);
});

test('flicker grows with the swing: twice the supply impedance, twice P_st', () => {
  const once = shortTermOfCycle(pulses(16), rate_Hz, 50, 2e-8);
  const twice = shortTermOfCycle(pulses(16), rate_Hz, 50, 4e-8);
  expect(Math.abs(twice / once - 2)).toBeLessThan(0.005);
});

test('short of ten minutes there is no P_st, short of two hours no P_lt', () => {
  expect(shortTerms(pulses(599), rate_Hz, 50, 2e-8)).toEqual([]);
  expect(longTermOf(new Array<number>(11).fill(1))).toBeNull();
  expect(longTermOf([3, ...new Array<number>(12).fill(0)])).toBeCloseTo(3 * Math.cbrt(1 / 12), 12);
});

test('the share of energy in a band counts lines inside it, both edges with it', () => {
  const wave = Float64Array.from({ length: 2000 }, (_, j) => {
    const t = j / 100;
    return 5 + Math.cos(2 * Math.PI * t) + 2 * Math.cos(2 * Math.PI * 10 * t);
  });
  expect(energyShare(wave, 100, true, [0.1, 1])).toBeCloseTo(0.2, 12);
  expect(energyShare(wave, 100, true, [1.05, 20])).toBeCloseTo(0.8, 12);
  expect(energyShare(new Float64Array(100).fill(3), 100, true, [0.1, 20])).toBeNull();
});
