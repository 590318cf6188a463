import { expect, it } from 'vitest';
import type { Lens } from '../../web/lens.ts';
import { moveFingers } from '../../web/touch.ts';

/** A view of 10 s from 100 s in 500 pixels: 50 to a second. */
function moved(before: readonly number[], after: readonly number[]): readonly number[] | null {
  let shown: readonly number[] | null = null;
  const lens = {
    from_s: 100,
    to_s: 110,
    show: (from: number, to: number) => {
      shown = [from, to];
    },
    pan: (by: number) => {
      shown = [100 + by, 110 + by];
    },
  } as unknown as Lens;
  moveFingers(lens, 500, before, after);
  return shown;
}

it('moveFingers() keeps the moment under one finger', () => {
  expect(moved([300], [200])).toEqual([102, 112]);
});

it('moveFingers() keeps the moment under each of two fingers', () => {
  // 102 s and 104 s, 100 px apart, come to lie 200 px apart.
  const [from, to] = moved([100, 200], [50, 250])!;
  expect(to! - from!).toBeCloseTo(5, 9);
  expect(from! + 50 / 100).toBeCloseTo(102, 9);
  expect(from! + 250 / 100).toBeCloseTo(104, 9);
});

it('moveFingers() makes nothing of fingers that meet or cross', () => {
  expect(moved([100, 200], [150, 160])).toBe(null);
  expect(moved([100, 200], [250, 100])).toBe(null);
});
