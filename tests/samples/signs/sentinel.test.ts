/** One number again and again, far outside of all others: it shows on either side of them. */
import { expect, test } from 'vitest';
import { busy, changed, signsIn } from './known-signal.ts';

const device = busy(3000);
const lost = (value: number): Float64Array => {
  let values = device;
  for (let at = 31; at < device.length; at += 211) values = changed(values, at, at + 1, () => value);
  return values;
};

test.each([9999, -9999])('%i', (value) => {
  const told = signsIn(lost(value)).filter(({ kind }) => kind === 'spike');
  expect(told.map(({ shows }) => shows)).toEqual([
    expect.stringMatching(
      new RegExp(
        `^a is exactly ${value} W in 15 samples from .+, all others lie from 1\\d\\d\\S* W to 7\\d\\d\\S* W$`,
      ),
    ),
  ]);
  expect(told[0]!.asks).toContain('(--sentinel)');
});

test('a level of its own below all others, as of a voltage that is switched off, is none', () => {
  expect(signsIn(device.map((v, k) => (k % 200 < 40 ? 0 : 700 + v / 10)))).not.toContainEqual(
    expect.objectContaining({ kind: 'spike' }),
  );
});
