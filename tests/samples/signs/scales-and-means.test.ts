/** A scale that steps by ten, a channel that is the running mean of another, and readings filled in by a smooth curve. */
import { describe, expect, test } from 'vitest';
import { busy, changed, short, signsIn } from './known-signal.ts';

const device = busy(3000);
const other = busy(3000, 2);

describe('a scale that steps', () => {
  test.each([10, 0.1, 100])('by %d', (scale) => {
    expect(short(signsIn(changed(device, 1600, 3000, (v) => scale * v)))).toEqual([
      'two scales a 32 to 59.98',
    ]);
  });

  test('is none where the load itself goes up', () => {
    const up = changed(device, 1600, 3000, (v) => v + 6000);
    expect(signsIn(up).filter(({ kind }) => kind === 'two scales')).toEqual([]);
  });
});

describe('a running mean', () => {
  const rounded = (v: number): number => Math.round(100 * v) / 100;
  const lowPassed = device.slice();
  for (let k = 1; k < lowPassed.length; k++)
    lowPassed[k] = lowPassed[k - 1]! + 0.3 * (device[k]! - lowPassed[k - 1]!);
  const means = (ahead: number): Float64Array =>
    device.map((_, k) => {
      const part = device.subarray(Math.max(0, k + ahead - 9), k + ahead + 1);
      return part.reduce((sum, v) => sum + v, 0) / part.length;
    });
  const told = (one: Float64Array): string[] =>
    signsIn(device, one).flatMap(({ kind, shows }) => (kind === 'twin' ? [shows] : []));

  test.each([
    ['of a low-pass', lowPassed],
    ['of the last ten samples', means(0)],
    ['of the ten about each', means(5)],
  ])('%s, beside what it is the mean of', (_, mean) => {
    expect(told(mean.map(rounded))).toEqual(['b is a running mean of a']);
  });

  test.each([
    ['rounded to 1 W', device.map((v) => Math.round(v))],
    ['rounded to 10 W', device.map((v) => 10 * Math.round(v / 10))],
  ])('nor the same reading, %s', (_, coarse) => {
    expect(told(coarse)).toHaveLength(1);
  });

  test('is no device in step', () => {
    expect(told(other)).toEqual([]);
  });
});

describe('readings filled in', () => {
  test('by a smooth curve', () => {
    const filled = changed(device, 1020, 1050, (_, k) => {
      const t = (k - 1020) / 30;
      return Math.round(100 * (690 + 60 * t * t * (3 - 2 * t) - 30 * t)) / 100;
    });
    const [sign] = signsIn(filled);
    expect(sign?.kind).toBe('straight');
    expect(sign?.shows).toMatch(/^a runs smoothly from .* W for \d+ ms \(\d+ samples from 20\.\d+ s on\)/);
  });
});
