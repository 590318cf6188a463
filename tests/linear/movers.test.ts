/** Places that something follows, found by halves, against moving every place by itself. */
import { describe, expect, it } from 'vitest';
import { moversOf } from '../../src/linear/movers.ts';

describe('moversOf()', () => {
  const value = Float64Array.from({ length: 37 }, (_, k) => 50 - k);

  it('finds each place that changes an outcome, and no other', () => {
    const evaluate = (): number[] => [value[3]! * value[17]!, value[17]! + value[36]!, 5];
    expect(moversOf(value, evaluate)).toEqual([3, 17, 36]);
  });

  it('finds places that would cancel if they moved alike', () => {
    expect(moversOf(value, () => [value[8]! - value[9]!])).toEqual([8, 9]);
    expect(moversOf(value, () => [(value[20]! + value[22]!) / 2 - value[21]!])).toEqual([20, 21, 22]);
  });

  it('finds places that rest on a clamp, which follow one way alone', () => {
    expect(moversOf(value, () => [Math.min(value[5]!, 45), Math.max(value[6]!, 44)])).toEqual([5, 6]);
  });

  it('leaves the column as it was, and finds nothing where nothing follows', () => {
    const before = value.slice();
    expect(moversOf(value, () => [1, 2])).toEqual([]);
    expect(value).toEqual(before);
  });
});
