import { expect, it } from 'vitest';
import { longestLevel } from '../../web/longest-level.ts';

/** Two buckets of 40 ms about a close-up of three moments. */
const buckets = {
  edges_s: Float64Array.of(0, 0.04, 0.0405, 0.041, 0.0415, 0.0815),
  moments_s: Float64Array.of(Number.NaN, 0.04025, 0.04075, 0.04125, Number.NaN),
};
const whole = { from_s: 0, to_s: 0.0815, width: 500, firstBucket: 0, lastBucket: 4 };

it('longestLevel() is that of a bucket wide enough to be seen as one', () => {
  expect(longestLevel(buckets, whole)).toBeCloseTo(0.04, 12);
  expect(longestLevel(buckets, { ...whole, to_s: 30 })).toBe(0);
});

it('longestLevel() is none inside a close-up, where each moment is drawn as a point', () => {
  const inside = { from_s: 0.04, to_s: 0.0415, width: 500, firstBucket: 1, lastBucket: 3 };
  expect(longestLevel(buckets, inside)).toBe(0);
});
