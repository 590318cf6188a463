import { expect, it } from 'vitest';
import { leftOutIn, whyOutside } from '../../../src/analysis/judge/left-out.ts';

const window = { from_s: 1, to_s: 30 };

it('leftOutIn() gives each moment the reason that leaves out most, and nothing outside the window', () => {
  const applies = {
    steady: [],
    lost: [{ from_s: 0.5, to_s: 5 }],
    walkIn: [{ from_s: 4, to_s: 12 }],
    starts: [
      { from_s: 0.5, to_s: 10.5 },
      { from_s: 12, to_s: 22 },
      { from_s: 21, to_s: 40 },
    ],
  };
  expect(leftOutIn(applies, window)).toEqual([
    { from_s: 1, to_s: 5, why: 'ac-lost' },
    { from_s: 5, to_s: 12, why: 'walk-in' },
    { from_s: 12, to_s: 30, why: 'settling' },
  ]);
});

it('leftOutIn() leaves nothing out of a run in which nothing starts or stops', () => {
  expect(leftOutIn({ steady: [window], lost: [], walkIn: [], starts: [] }, window)).toEqual([]);
});

it('whyOutside() says of a worst value what its moment was, and of one without a moment what the window holds', () => {
  const leftOut = [
    { from_s: 1, to_s: 5, why: 'ac-lost' },
    { from_s: 12, to_s: 22, why: 'settling' },
    { from_s: 25, to_s: 30, why: 'settling' },
  ] as const;
  expect(whyOutside(leftOut, 13)).toBe('settling after a start or stop');
  expect(whyOutside(leftOut, null)).toBe(
    'over the whole window, AC lost and settling after a start or stop included',
  );
  expect(whyOutside(leftOut, 8)).toBe(whyOutside(leftOut, null));
});
