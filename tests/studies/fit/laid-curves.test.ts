import { describe, expect, test } from 'vitest';
import { laidCurves } from '../../../src/studies/fit/laid-curves.ts';

/** Channel 0 with a spike in one of 5000 samples, channel 1 behind it; the model is 0, and ends before the last sample. */
const count = 5000;
const spike = 3333;
const points = [0, 1].flatMap((channel) =>
  Array.from({ length: count }, (_, i) => ({
    channel,
    row: i,
    time_s: i * 1e-3,
    value: i === spike ? 9 : 0.001 * (i % 7),
  })),
);
const shown = (value: number): Float64Array =>
  Float64Array.from(points, (_, i) => (i % count === count - 1 ? Number.NaN : value));

describe('laidCurves()', () => {
  const laid = laidCurves(points, { found: shown(0), present: shown(1) }, 0);

  test('keeps the sample that is furthest off of each stretch, in the order of time', () => {
    expect(laid.time_s.length).toBe(500);
    expect(laid.measured.filter((value) => value === 9)).toEqual([9]);
    expect(laid.time_s[laid.measured.indexOf(9)]).toBeCloseTo(spike * 1e-3, 9);
    expect([...laid.time_s].sort((a, b) => a - b)).toEqual(laid.time_s);
    // Of ten samples there is always one that is off by the most of seven.
    expect(laid.measured.filter((value) => value < 0.006)).toEqual([]);
  });

  test('gives every sample of a short measurement, and none where the run ends before', () => {
    const short = [...points.slice(0, 20), { channel: 0, row: 20, time_s: 1, value: 1 }];
    const ended = Float64Array.from(short, (_, i) => (i === 20 ? Number.NaN : 0));
    const few = laidCurves(short, { found: ended, present: ended }, 0);
    expect(few.measured).toEqual(short.map(({ value }) => value));
    expect([few.before.at(-1), few.after.at(-1)]).toEqual([null, null]);
  });
});
