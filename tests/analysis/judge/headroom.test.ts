import { expect, test } from 'vitest';
import { headroomOf } from '../../../src/analysis/judge/headroom.ts';

test.each<
  [string, { value: number; nominal?: number; counts?: boolean }, number, 'upper' | 'lower', number | null]
>([
  ['about a nominal, below', { value: 49.125, nominal: 50.25 }, 48, 'lower', 0.5],
  ['about a nominal, above', { value: 50.5, nominal: 50 }, 51, 'upper', 0.5],
  ['about a nominal, broken', { value: 47.75, nominal: 50 }, 48, 'lower', -0.125],
  ['an upper bound of what is zero at best', { value: 0.025 }, 0.1, 'upper', 0.75],
  ['an upper bound, broken', { value: 0.15 }, 0.1, 'upper', -0.5],
  ['a lower bound', { value: 15 }, 10, 'lower', 0.5],
  ['a lower bound, broken', { value: 5 }, 10, 'lower', -0.5],
  ['on the limit but for rounding', { value: 0.05 - 7e-17 }, 0.05, 'lower', 0],
  ['a count', { value: 0, counts: true }, 0, 'upper', null],
  ['a limit of zero', { value: 0 }, 0, 'upper', null],
])('headroom of %s', (_name, reading, value, side, expected) => {
  const headroom = headroomOf(reading, { value, side });
  if (expected === null) expect(headroom).toBeNull();
  else expect(headroom).toBeCloseTo(expected, 12);
});
