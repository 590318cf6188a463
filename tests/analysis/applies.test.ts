import { expect, test } from 'vitest';
import { appliesIn, loadChanges } from '../../src/analysis/applies.ts';
import { loadPeriod } from '../../src/analysis/load-period.ts';
import { without } from '../../src/analysis/spans.ts';
import { happens } from '../happens.ts';
import { scenarioOf } from './fixture.ts';

const load = (duration_s: number, at: (t: number) => number) => ({
  means: Float64Array.from({ length: Math.round(duration_s * 100) }, (_, j) => at((j + 0.5) * 0.01)),
  from_s: 0,
  width_s: 0.01,
});

const pulses = (t: number): number => (t % 1.6 < 1.12 ? 240 : 100);

test('a periodic load never starts or stops, over its own period', () => {
  expect(loadChanges(load(30, pulses), 48, 1.6, false)).toEqual([]);
  // A period that is no whole number of means is interpolated.
  expect(
    loadChanges(
      load(30, (t) => (t % 0.777 < 0.4 ? 240 : 100)),
      48,
      0.777,
      false,
    ),
  ).toEqual([]);
});

test('a jump of more than the threshold counts from where it happens to 10 s after', () => {
  const spans = loadChanges(
    load(30, (t) => (t < 8 ? 100 : 160)),
    48,
    1,
    true,
  );
  expect(spans).toEqual([{ from_s: 8, to_s: 18 }]);
});

test('a ramp counts from where it begins, not from its middle, to 10 s after its end', () => {
  const ramp =
    (from_s: number, length_s: number) =>
    (t: number): number =>
      100 + 140 * Math.min(1, Math.max(0, (t - from_s) / length_s));
  for (const length_s of [0.05, 0.4, 2]) {
    const [span, ...more] = loadChanges(load(30, ramp(8, length_s)), 48, 1, true);
    expect(more).toEqual([]);
    expect(span?.from_s).toBeCloseTo(8, 9);
    expect(span?.to_s).toBeCloseTo(18 + length_s, 9);
  }
});

test('a jump of less than the threshold does not count', () => {
  expect(
    loadChanges(
      load(30, (t) => (t < 8 ? 100 : 147)),
      48,
      1,
      true,
    ),
  ).toEqual([]);
});

test('a jump in the first or last second counts too', () => {
  expect(
    loadChanges(
      load(2, (t) => (t < 0.1 ? 100 : 240)),
      48,
      1,
      true,
    ),
  ).toEqual([{ from_s: 0.1, to_s: 10.1 }]);
  expect(
    loadChanges(
      load(2, (t) => (t < 1.9 ? 100 : 240)),
      48,
      1,
      true,
    )[0]!.from_s,
  ).toBeCloseTo(1.9, 9);
});

test('bands wait for the end of walk-in and 10 s more', () => {
  const events = [happens(2, 'ac-loss', 'all'), happens(5, 'ac-return', 'all')];
  const applies = appliesIn(scenarioOf({ events }), { from_s: 0, to_s: 40 }, null, null);
  expect(applies.lost).toEqual([{ from_s: 2, to_s: 6 }]);
  expect(applies.walkIn).toEqual([{ from_s: 6, to_s: 16 }]);
  expect(applies.steady).toEqual([
    { from_s: 0, to_s: 2 },
    { from_s: 26, to_s: 40 },
  ]);
});

test('AC that never returns is lost to the end', () => {
  const events = [happens(2, 'ac-loss', 'FA')];
  const applies = appliesIn(scenarioOf({ events }), { from_s: 0, to_s: 40 }, null, null);
  expect(applies.steady).toEqual([{ from_s: 0, to_s: 2 }]);
});

test('without() keeps what overlapping holes leave', () => {
  const holes = [
    { from_s: 5, to_s: 7 },
    { from_s: 2, to_s: 3 },
    { from_s: 6, to_s: 8 },
    { from_s: 9.5, to_s: 20 },
  ];
  expect(without({ from_s: 0, to_s: 10 }, holes)).toEqual([
    { from_s: 0, to_s: 2 },
    { from_s: 3, to_s: 5 },
    { from_s: 8, to_s: 9.5 },
  ]);
});

test('loadPeriod() finds the beat of a load whose pulses wander', () => {
  const wandering = load(40, (t) => pulses(t + 0.04 * Math.sin(t * 0.9)));
  expect(loadPeriod(wandering.means, 0.01)).toBeCloseTo(1.6, 1);
});

test('loadPeriod() finds none in a flat load, a single step or one shorter than three beats', () => {
  expect(loadPeriod(load(30, () => 100).means, 0.01)).toBeNull();
  expect(loadPeriod(load(30, (t) => (t < 15 ? 100 : 240)).means, 0.01)).toBeNull();
  expect(loadPeriod(load(4, pulses).means, 0.01)).toBeNull();
});
