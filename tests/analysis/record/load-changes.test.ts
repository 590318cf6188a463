import { expect, test } from 'vitest';
import { loadChanges } from '../../../src/analysis/record/load-changes.ts';
import { loadMeans, pulses } from '../load-means.ts';

test('a periodic load never starts or stops, over its own period', () => {
  expect(loadChanges(loadMeans(30, pulses), 48, 1.6, false)).toEqual([]);
  // A period that is no whole number of means is interpolated.
  expect(
    loadChanges(
      loadMeans(30, (t) => (t % 0.777 < 0.4 ? 240 : 100)),
      48,
      0.777,
      false,
    ),
  ).toEqual([]);
});

test('a jump of more than the threshold counts where it happens', () => {
  const spans = loadChanges(
    loadMeans(30, (t) => (t < 8 ? 100 : 160)),
    48,
    1,
    true,
  );
  expect(spans).toEqual([{ from_s: 8, to_s: 8 }]);
});

test('a ramp counts from where it begins, not from its middle, to its end', () => {
  const ramp =
    (from_s: number, length_s: number) =>
    (t: number): number =>
      100 + 140 * Math.min(1, Math.max(0, (t - from_s) / length_s));
  for (const length_s of [0.05, 0.4, 2]) {
    const [span, ...more] = loadChanges(loadMeans(30, ramp(8, length_s)), 48, 1, true);
    expect(more).toEqual([]);
    expect(span?.from_s).toBeCloseTo(8, 9);
    expect(span?.to_s).toBeCloseTo(8 + length_s, 9);
  }
});

test('a jump of less than the threshold does not count', () => {
  expect(
    loadChanges(
      loadMeans(30, (t) => (t < 8 ? 100 : 147)),
      48,
      1,
      true,
    ),
  ).toEqual([]);
});

test('a jump in the first or last second counts too', () => {
  expect(
    loadChanges(
      loadMeans(2, (t) => (t < 0.1 ? 100 : 240)),
      48,
      1,
      true,
    ),
  ).toEqual([{ from_s: 0.1, to_s: 0.1 }]);
  expect(
    loadChanges(
      loadMeans(2, (t) => (t < 1.9 ? 100 : 240)),
      48,
      1,
      true,
    )[0]!.from_s,
  ).toBeCloseTo(1.9, 9);
});
