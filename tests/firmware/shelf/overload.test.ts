/**
 * The overload counters against their closed forms. Accumulator from rest at y: trips after T/(y² − 1); table: one stay
 * of t, or stays that fill the share D of the time. Tolerance: two samples of 0.1 ms, where a stay is whole samples none.
 */
import { describe, expect, it } from 'vitest';
import { Overload } from '../../../src/firmware/shelf/overload.ts';
import type { ShelfValues } from '../../../src/scenario/parameters/shelf.ts';
import { shippedWith } from '../../engine/runs.ts';

const sample_s = 1e-4;
const reference = shippedWith('idle').shelves[0]!.values;

function overload(values: Partial<ShelfValues>): Overload {
  return new Overload({ ...reference, overload_time_s: 0, ...values });
}

/** Time after which it trips at y(t), or Infinity within 100 s. */
function tripTime_s(counter: Overload, y: (t: number) => number): number {
  for (let n = 1; n <= 1e6; n++) {
    if (counter.advance(y((n - 0.5) * sample_s), sample_s) !== null) return n * sample_s;
  }
  return Number.POSITIVE_INFINITY;
}

/** Rows of a published excursion curve of power supplies for desktops: level, longest stay, duty. */
const table: Partial<ShelfValues> = {
  overload_level_1_ratio: 1.8,
  overload_hold_1_s: 1e-3,
  overload_duty_1_ratio: 0.08,
  overload_level_2_ratio: 1.6,
  overload_hold_2_s: 10e-3,
  overload_duty_2_ratio: 0.125,
  overload_level_3_ratio: 1.2,
  overload_hold_3_s: 100e-3,
  overload_duty_3_ratio: 0.25,
};

describe('the overload accumulator', () => {
  it.each([1.02, 1.1, 1.2, 1.6])('trips at %s times rated after T/(y² − 1)', (y) => {
    const expected = 2 / (y * y - 1);
    expect(Math.abs(tripTime_s(overload({ overload_time_s: 2 }), () => y) - expected)).toBeLessThan(
      2 * sample_s,
    );
  });

  it('never trips at rated current, and forgets below it as it counts above', () => {
    expect(tripTime_s(overload({ overload_time_s: 0.1 }), () => 1)).toBe(Number.POSITIVE_INFINITY);
    // 1.2² − 1 = 0.44 for half the time against 1 − 0.6² = 0.64 for the other half.
    const swings = (t: number): number => (t % 0.1 < 0.05 ? 1.2 : 0.6);
    expect(tripTime_s(overload({ overload_time_s: 0.1 }), swings)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('the overload table', () => {
  it.each([
    [2, 1e-3],
    [1.7, 10e-3],
    [1.3, 100e-3],
  ])('lets one stay at %s times rated last %s s', (y, hold_s) => {
    expect(tripTime_s(overload(table), () => y)).toBeCloseTo(hold_s, 9);
  });

  it('does not count what stays at or below a level', () => {
    expect(tripTime_s(overload(table), () => 1.2)).toBe(Number.POSITIVE_INFINITY);
  });

  it.each([
    [0.12, Number.POSITIVE_INFINITY],
    [0.13, 1],
  ])(
    'bears pulses of 1.7 times rated with a duty of %s for ever up to its own of 0.125',
    (duty, before_s) => {
      const pulses = (t: number): number => (t % 0.05 < duty * 0.05 ? 1.7 : 0.5);
      const trip_s = tripTime_s(overload(table), pulses);
      if (before_s === 1) expect(trip_s).toBeLessThan(60);
      else expect(trip_s).toBe(Number.POSITIVE_INFINITY);
    },
  );

  it('says which level, and how long it was held', () => {
    const counter = overload(table);
    const said = Array.from({ length: 10 }, () => counter.advance(2, sample_s));
    expect(said.slice(0, -1).every((words) => words === null)).toBe(true);
    expect(said.at(-1)).toBe('overload: above 180 % for its 1.0 ms');
    expect(overload({ overload_time_s: 1e-4 }).advance(2, sample_s)).toBe(
      'overload: its accumulator is full at 200 % of rated',
    );
  });

  it('counts from the lowest of its levels on, and the accumulator from rated current', () => {
    expect(overload(table).least).toBe(1.2);
    expect(overload({ ...table, overload_time_s: 2 }).least).toBe(1);
  });

  it('of a model that states none counts nothing', () => {
    expect(overload({}).least).toBe(Number.POSITIVE_INFINITY);
    expect(tripTime_s(overload({}), () => 3)).toBe(Number.POSITIVE_INFINITY);
  });
});
