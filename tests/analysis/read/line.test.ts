import { expect, test } from 'vitest';
import { highestFloor } from '../../../src/analysis/read/line.ts';

test('highestFloor() finds the level stayed above for so many values', () => {
  const values = Float64Array.from([1, 5, 4, 6, 2, 9, 1]);
  expect(highestFloor(values, 1)).toEqual({ value: 9, start: 5 });
  expect(highestFloor(values, 3)).toEqual({ value: 4, start: 1 });
  expect(highestFloor(values, 7)).toEqual({ value: 1, start: 0 });
});
