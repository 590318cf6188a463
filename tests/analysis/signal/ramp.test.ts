import { expect, test } from 'vitest';
import { steepestRamp } from '../../../src/analysis/signal/ramp.ts';

const means = (count: number, at: (t: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, j) => at((j + 0.5) * 0.01));

test.each([0.1, 1])('a straight ramp is found exactly over %d s', (window_s) => {
  const found = steepestRamp(
    means(400, (t) => 1000 + 80_000 * t),
    0,
    0.01,
    window_s,
    [],
  );
  expect(Math.abs(found!.ramp / 80_000 - 1)).toBeLessThan(1e-9);
});

test('a step ramps by its height over the window, where the windows meet at the step', () => {
  const found = steepestRamp(
    means(400, (t) => (t < 2 ? 50 : 20)),
    10,
    0.01,
    0.1,
    [],
  );
  expect(found!.ramp).toBeCloseTo(-300, 9);
  expect(found!.time_s).toBeCloseTo(12, 9);
});

test('windows that touch a stretch left out are not looked at', () => {
  const step = means(400, (t) => (t < 2 ? 50 : 20));
  expect(steepestRamp(step, 0, 0.01, 0.1, [{ from_s: 1.9, to_s: 2.1 }])!.ramp).toBeCloseTo(0, 9);
  expect(steepestRamp(step, 0, 0.01, 0.1, [{ from_s: 0, to_s: 4 }])).toBeNull();
});

test('a record shorter than two windows has no ramp', () => {
  expect(
    steepestRamp(
      means(19, () => 1),
      0,
      0.01,
      0.1,
      [],
    ),
  ).toBeNull();
  expect(
    steepestRamp(
      means(20, () => 1),
      0,
      0.01,
      0.1,
      [],
    )!.ramp,
  ).toBe(0);
});
