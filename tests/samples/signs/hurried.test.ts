/** Rows that a logger wrote out at once are asked about; stamps that come unevenly by nature are not. */
import { describe, expect, test } from 'vitest';
import { logarithm } from '../../../src/base/logarithm.ts';
import { Random } from '../../../src/loads/random.ts';
import { hurried } from '../../../src/samples/signs/hurried.ts';
import type { Sampled } from '../../../src/samples/signs/sign.ts';
import { busy, channel } from './known-signal.ts';

/** The busy device, each row this long after the one before [s]. */
function stamped(stepAt: (k: number) => number, count = 1500, name = 'a'): Sampled {
  const time_s = new Float64Array(count);
  for (let k = 1; k < count; k++) time_s[k] = time_s[k - 1]! + stepAt(k);
  return { ...channel(busy(count), name), time_s };
}

const asked = (stepAt: (k: number) => number, count?: number): number =>
  hurried([stamped(stepAt, count)]).length;

describe('asked about is', () => {
  const flushed = (k: number): number => (k > 500 && k <= 700 ? 0.0004 : 0.02);

  test('a buffer that was written out at once', () => {
    expect(hurried([stamped(flushed)])).toEqual([
      {
        kind: 'hurried',
        channel: 'a',
        from_s: expect.closeTo(10, 6),
        to_s: expect.closeTo(10.08, 6),
        shows: '201 rows of a from 10 s on come within 80 ms, where as many elsewhere take 4 s',
        asks: expect.stringMatching(
          /^written out at once by a logger .* or was it read so much faster there\?$/,
        ),
      },
    ]);
  });

  test('each of several, at the end too, behind the pause in which they waited, and with uneven stamps', () => {
    expect(asked((k) => (k % 500 > 400 ? 0.001 : 0.02))).toBe(3);
    expect(asked((k) => (k === 1000 ? 4 : k > 1000 && k <= 1200 ? 1e-6 : 0.02))).toBe(1);
    const random = new Random(2);
    expect(asked((k) => (k > 1400 ? 0.0002 : 0.02) * (0.5 + random.uniform()))).toBe(1);
  });

  test('one stretch once, of all channels that came in it', () => {
    expect(hurried([stamped(flushed), stamped(flushed, 1500, 'b')]).map((sign) => sign.channel)).toEqual([
      'a',
    ]);
  });
});

describe('not asked about are', () => {
  test('steps by chance, of any length', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = new Random(seed);
      expect(asked(() => 0.02 * -logarithm(1 - random.uniform()))).toBe(0);
      expect(asked(() => 0.02 * (0.02 + 1.98 * random.uniform()))).toBe(0);
    }
  });

  test('pairs, a few rows after a pause, and rows at twice or three times the rate for a while', () => {
    expect(asked((k) => (k % 2 === 0 ? 0.0004 : 0.0396))).toBe(0);
    expect(asked((k) => (k % 100 === 0 ? 0.2 : k % 100 < 9 ? 0.0005 : 0.02))).toBe(0);
    for (const times of [2, 3]) expect(asked((k) => (k % 500 > 300 ? 0.02 / times : 0.02))).toBe(0);
  });
});
