import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SustainedMeter } from '../../../src/engine/meters/sustained.ts';

/** By definition: every stretch of `count` values looked at. */
function byHand(values: readonly number[], count: number) {
  const stretches = values
    .slice(0, values.length - count + 1)
    .map((_, from) => values.slice(from, from + count));
  return {
    mean: Math.max(...stretches.map((s) => s.reduce((a, b) => a + b, 0) / count)),
    held: Math.max(...stretches.map((s) => Math.min(...s))),
  };
}

function metered(values: readonly number[], lengths_s: readonly number[]) {
  const meter = new SustainedMeter(['P', 'Q'], lengths_s, 0.01, values.length);
  for (const value of values) meter.take(Float64Array.of(Number.NaN, value, -value), 1);
  return meter.readings(4);
}

describe('SustainedMeter', () => {
  it('finds what looking at every stretch finds, for each channel by itself', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 60 }),
        fc.integer({ min: 1, max: 20 }),
        (values, count) => {
          const readings = metered(values, [count * 0.01]);
          if (count > values.length) {
            expect(readings).toEqual([]);
            return;
          }
          const [p, q] = readings;
          const mirrored = values.map((value) => -value);
          for (const [reading, own] of [[p!, values] as const, [q!, mirrored] as const]) {
            const { mean, held } = byHand(own, count);
            expect(reading.held).toBe(held);
            expect(reading.mean).toBeCloseTo(mean, 9);
          }
        },
      ),
      { seed: 4, numRuns: 300 },
    );
  });

  it('says when the stretch began, in the time of the run', () => {
    const [reading] = metered([1, 1, 5, 6, 7, 1, 1, 1], [0.03]);
    expect(reading).toMatchObject({ channel: 'P', over_s: 0.03, mean: 6, held: 5 });
    expect([reading!.mean_s, reading!.held_s]).toEqual([4.02, 4.02]);
  });

  it('looks for no stretch that is longer than the run, however long it is', () => {
    const meter = new SustainedMeter(['P'], [0.02, 1e6], 0.01, 3);
    for (const value of [1, 2, 3]) meter.take(Float64Array.of(value), 0);
    expect(meter.readings(0).map(({ over_s }) => over_s)).toEqual([0.02]);
  });
});
