import { expect, test } from 'vitest';
import { largestRange } from '../../../src/analysis/signal/range.ts';

test('the range within a stretch is highest minus lowest of the worst stretch', () => {
  const values = Float64Array.from([0, 5, 1, 9, 9, 9, 9, 2]);
  //                       stretch of 2: 1 to 9 ends after the fourth value
  expect(largestRange(values, 100, 1, 2)).toEqual({ range: 8, time_s: 104 });
  expect(largestRange(values, 100, 1, 4)).toEqual({ range: 9, time_s: 104 });
});

test('it equals the plain search over every stretch', () => {
  const values = Float64Array.from({ length: 300 }, (_, j) => Math.sin(j * 0.7) * ((j * 37) % 101));
  for (const length of [1, 7, 50, 1000]) {
    let best = 0;
    for (let j = 0; j < values.length; j++) {
      const stretch = values.subarray(Math.max(0, j - length + 1), j + 1);
      best = Math.max(best, Math.max(...stretch) - Math.min(...stretch));
    }
    expect(largestRange(values, 0, 1, length)!.range).toBe(best);
  }
});

test('no values have no range', () => {
  expect(largestRange(new Float64Array(0), 0, 1, 5)).toBeNull();
});
