import { expect, test } from 'vitest';
import { levelStayed } from '../../../src/analysis/record/stays.ts';

const levels = Float64Array.from([45, 48, 49, 50]);

test.each<[string, number[], number, { min: number; max: number } | null, number | null]>([
  //                                   longest stay below 45, 48, 49, 50
  ['straight between two levels', [0, 0, 0, 10], 1, null, 49.1],
  ['from the lowest voltage, where that lies nearer', [0, 0, 0, 10], 1, { min: 49.5, max: 50 }, 49.55],
  ['exactly on a level stayed beyond for the allowed time', [0, 1, 3, 10], 1, null, 48],
  ['beyond the first level: that level', [5, 6, 7, 10], 1, null, 45],
  ['beyond the first level: from the lowest voltage', [5, 6, 7, 10], 1, { min: 40, max: 50 }, 41],
  ['never so long: the nearest level', [0, 0, 0, 0.5], 1, null, 50],
  ['no stay allowed: the lowest voltage', [0, 0, 2, 10], 0, { min: 48.7, max: 50 }, 48.7],
  ['above every level: the lowest voltage', [0, 0, 0, 0], 1, { min: 50.4, max: 51 }, 50.4],
])('the level below which a voltage stays: %s', (_name, below, stay_s, extreme, expected) => {
  const value = levelStayed(levels, Float64Array.from(below), stay_s, true, extreme);
  if (expected === null) expect(value).toBeNull();
  else expect(value).toBeCloseTo(expected, 9);
});

test('upwards is the mirror image', () => {
  const up = levelStayed(levels, Float64Array.from([10, 3, 1, 0]), 1, false, { min: 44, max: 49.8 });
  expect(up).toBe(49);
});
