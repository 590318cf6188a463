import { expect, it } from 'vitest';
import { outsideBands, outsideRamps, outsideWindow, type Shade } from '../../web/judged-time.ts';
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
const spans = (shades: readonly Shade[]): string[] =>
  shades.map(({ from_s, to_s, words }) => `${from_s} to ${to_s} ${words[0]}`);

it('outsideWindow() says what of the run lies before and after the judged window', () => {
  expect(spans(outsideWindow(report, whole))).toEqual(['0 to 1 warm-up: not judged', '28 to 30 not judged']);
  expect(outsideWindow({ ...report, window_s: { from: 0, to: 30 } }, whole)).toEqual([]);
});

it('outsideBands() adds every stretch that is left out, with its reason', () => {
  expect(spans(outsideBands(report, whole)).slice(2)).toEqual([
    '5 to 8 AC lost until the last shelf walks in: no AC limit judged',
    '8 to 18 walk-in: only ramps over 1 s judged',
    '18 to 28 settling after a start or stop: only ramps judged',
  ]);
  expect(outsideBands(report, whole).map(({ partly }) => partly)).toEqual([false, false, false, true, true]);
});

it('outsideRamps() reaches as far beyond a stretch as a ramp looks, and judges 1 s through walk-in', () => {
  expect(spans(outsideRamps(report, whole, 1)).slice(2)).toEqual(['4 to 9 AC lost: not judged']);
  expect(spans(outsideRamps(report, whole, 0.1)).slice(2)).toEqual([
    '4.9 to 8.1 AC lost: not judged',
    '7.9 to 18.1 walk-in: not judged',
  ]);
});

it('AC that comes back without a walk-in is only said to be lost', () => {
  const [lost] = report.left_out;
  const [, , shade] = outsideBands({ ...report, left_out: [lost] }, whole);
  expect(shade!.words).toEqual(['AC lost: no AC limit judged', 'AC lost']);
});
