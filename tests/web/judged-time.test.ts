import { expect, it } from 'vitest';
import { outsideBands, outsideRamps, outsideWindow } from '../../web/judged-time.ts';
import { syntheticReport } from '../fixtures/report.ts';

const report = {
  ...syntheticReport(30),
  window_s: { from: 1, to: 28 },
  left_out: [
    { from_s: 5, to_s: 8, why: 'ac-lost' },
    { from_s: 8, to_s: 18, why: 'walk-in' },
    { from_s: 18, to_s: 28, why: 'settling' },
  ] as const,
};
const whole = [0, 30] as const;
const spans = (shades: readonly { from_s: number; to_s: number; word: string }[]): string[] =>
  shades.map(({ from_s, to_s, word }) => `${from_s} to ${to_s} ${word}`);

it('outsideWindow() says what of the run lies before and after the judged window', () => {
  expect(spans(outsideWindow(report, whole))).toEqual(['0 to 1 warm-up', '28 to 30 unjudged']);
  expect(outsideWindow({ ...report, window_s: { from: 0, to: 30 } }, whole)).toEqual([]);
});

it('outsideBands() adds every stretch that is left out, with its reason', () => {
  expect(spans(outsideBands(report, whole)).slice(2)).toEqual([
    '5 to 8 AC lost',
    '8 to 18 walk-in: ramps over 1 s alone',
    '18 to 28 settling: ramps alone',
  ]);
  expect(outsideBands(report, whole).map(({ partly }) => partly)).toEqual([false, false, false, true, true]);
});

it('outsideRamps() reaches as far beyond a stretch as a ramp looks, and judges 1 s through walk-in', () => {
  expect(spans(outsideRamps(report, whole, 1)).slice(2)).toEqual(['4 to 9 AC lost']);
  expect(spans(outsideRamps(report, whole, 0.1)).slice(2)).toEqual([
    '4.9 to 8.1 AC lost',
    '7.9 to 18.1 walk-in',
  ]);
});
