/** A channel that stands still over nearly all of its recording is asked about; what a load does by itself is not. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import type { Sign } from '../../../src/samples/signs/sign.ts';
import { still, stillBeside } from '../../../src/samples/signs/still.ts';
import { busy, changed, channel } from './known-signal.ts';

const n = 1500;
const told = (of: (k: number) => number, count = n): readonly Sign[] =>
  still(channel(Float64Array.from({ length: count }, (_, k) => of(k))));
const asked = (of: (k: number) => number, count = n): number => told(of, count).length;

describe('asked about is', () => {
  test('one value throughout', () => {
    expect(told(() => 230_000)).toEqual([
      {
        kind: 'frozen',
        channel: 'a',
        from_s: 0,
        to_s: 29.98,
        shows: 'a stands at 230000 W, within 0.01 %, in all 1500 samples over 29.98 s',
        asks: 'a dead sensor, or a load so steady, or a sensor so coarse, that nothing of it shows?',
      },
    ]);
  });

  test('one that stood at another value for a moment first', () => {
    expect(told((k) => (k < 20 ? 100_000 : 230_000))[0]!.shows).toBe(
      'a stands at 230000 W, within 0.01 %, in 1480 of 1500 samples (29.58 s from 400 ms on), and hardly moves in the others',
    );
  });

  test('two values in turns, and a last digit that flickers', () => {
    const random = new Random(3);
    expect(asked((k) => 230_000 + (k % 2))).toBe(1);
    expect(asked(() => 230_000 + Math.round(8 * random.uniform()))).toBe(1);
  });

  test('one value with up to three disturbances in it', () => {
    const disturbed = (places: readonly number[]) =>
      asked((k) => (places.includes(k) ? 90_000 + k : k < 30 ? 80_000 : 230_000));
    expect(disturbed([700, 1100, 1101])).toBe(1);
    expect(disturbed([700, 900, 1100, 1101])).toBe(0);
  });

  test('an idle cabinet that a meter shows in steps of 1 kW, and a short file', () => {
    const random = new Random(4);
    expect(asked(() => 1000 * Math.round((31_200 + 60 * random.gaussian()) / 1000))).toBe(1);
    expect(asked(() => 31_200, 50)).toBe(1);
    expect(asked(() => 31_200, 49)).toBe(0);
  });
});

describe('not asked about is', () => {
  test('a constant load with the noise of a good meter, to the digit or in steps', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = new Random(seed);
      const noisy = (share: number, step: number) => () =>
        step * Math.round((230_000 * (1 + share * random.gaussian())) / step);
      expect(asked(noisy(1e-3, 1))).toBe(0);
      expect(asked(noisy(1e-4, 1))).toBe(0);
      expect(asked(noisy(2e-3, 1000))).toBe(0);
    }
  });

  test('nothing at all', () => {
    expect(asked(() => 0)).toBe(0);
  });

  test('a level that is left and comes back, and one that takes less of the recording', () => {
    expect(asked((k) => (k > 700 && k < 750 ? 100_000 : 230_000))).toBe(0);
    expect(asked((k) => (k < 200 ? 100_000 : 230_000))).toBe(0);
  });

  test('a long rest beside work whose noise shows', () => {
    const values = Float64Array.from([...busy(300), ...new Float64Array(6000).fill(65.2)]);
    expect(still(channel(values))).toEqual([]);
  });

  test('what another sign says already', () => {
    const one = channel(new Float64Array(n).fill(500));
    const sign = still(one)[0]!;
    expect(stillBeside([one], [sign])).toEqual([]);
    expect(stillBeside([one], [{ ...sign, kind: 'never changes' }])).toEqual([]);
    expect(stillBeside([one], [{ ...sign, channel: 'b' }])).toEqual([sign]);
    expect(stillBeside([channel(changed(busy(), 0, 1, () => 0))], [])).toEqual([]);
  });
});
