import { expect, test } from 'vitest';
import { holds, joined, shareOf, touches, without } from '../../../src/analysis/record/spans.ts';

test('without() keeps what overlapping holes leave', () => {
  const holes = [
    { from_s: 5, to_s: 7 },
    { from_s: 2, to_s: 3 },
    { from_s: 6, to_s: 8 },
    { from_s: 9.5, to_s: 20 },
  ];
  expect(without({ from_s: 0, to_s: 10 }, holes)).toEqual([
    { from_s: 0, to_s: 2 },
    { from_s: 3, to_s: 5 },
    { from_s: 8, to_s: 9.5 },
  ]);
});

const apart = [
  { from_s: 5, to_s: 7 },
  { from_s: 2, to_s: 3 },
];

test('joined() makes one of what overlaps or touches, in time order', () => {
  expect(joined([...apart, { from_s: 7, to_s: 8 }, { from_s: 5.5, to_s: 6 }])).toEqual([
    { from_s: 2, to_s: 3 },
    { from_s: 5, to_s: 8 },
  ]);
});

test('shareOf() counts time covered twice once, and nothing outside', () => {
  const whole = { from_s: 0, to_s: 10 };
  expect(shareOf(whole, [...apart, { from_s: 6, to_s: 7 }])).toBeCloseTo(0.3, 12);
  expect(shareOf(whole, [{ from_s: -5, to_s: 20 }])).toBe(1);
  expect(shareOf(whole, [{ from_s: 20, to_s: 30 }])).toBe(0);
  expect(shareOf({ from_s: 3, to_s: 3 }, apart)).toBe(0);
});

test('a span holds its beginning and not its end', () => {
  expect([2, 2.5, 3].map((t) => holds(apart, t))).toEqual([true, true, false]);
  expect(touches(apart, 3, 5)).toBe(false);
  expect(touches(apart, 2.9, 4)).toBe(true);
});
