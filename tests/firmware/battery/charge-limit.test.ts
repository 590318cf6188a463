import { describe, expect, it } from 'vitest';
import { chargeDerating, currentAtFull_A } from '../../../src/firmware/battery/charge-limit.ts';

const window = { coldStop_degC: 0, cold_degC: 10, hot_degC: 45, hotStop_degC: 55 };

describe('chargeDerating', () => {
  it.each([
    [-5, 0],
    [0, 0],
    [4, 0.4],
    [10, 1],
    [30, 1],
    [45, 1],
    [50, 0.5],
    [55, 0],
    [80, 0],
  ])('at %d °C gives %d of the charge power', (T, share) => {
    expect(chargeDerating(window, T)).toBeCloseTo(share, 12);
  });
});

describe('currentAtFull_A', () => {
  it('is what lifts the terminals from the voltage behind R0 to the full one', () => {
    expect(currentAtFull_A(52.8, 52.7, 2e-3)).toBeCloseTo(50, 9);
  });

  it('is nothing above the full voltage, and without bound below it where there is no resistance', () => {
    expect(currentAtFull_A(52.8, 52.9, 2e-3)).toBe(0);
    expect(currentAtFull_A(52.8, 52.8, 0)).toBe(0);
    expect(currentAtFull_A(52.8, 52.7, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
