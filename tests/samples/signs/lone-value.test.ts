/** A number that stands for no reading, inside the range of all others: told by coming back to the digit, alone each time. */
import { expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { busy, changed, signsIn } from './known-signal.ts';

const device = busy(3000);
const lost = (value: number, run = 1): Float64Array => {
  let values = device;
  for (let at = 31; at + run < device.length; at += 113) values = changed(values, at, at + run, () => value);
  return values;
};

test.each([
  ['a little above the load', 800, 1],
  ['near its level at rest, for some samples at a time', 300, 3],
])('%s', (_, value, run) => {
  const signs = signsIn(lost(value, run));
  expect(signs.map(({ kind }) => kind)).toEqual(['spike']);
  expect(signs[0]!.shows).toContain(`a is exactly ${value} W in `);
});

test('peaks that are never twice alike, and a level that is held for longer too, are no such number', () => {
  const random = new Random(4);
  const peaks = device.map((v, k) => (k % 113 === 31 ? 800 + 50 * random.uniform() : v));
  expect(signsIn(peaks)).toEqual([]);
  const rests = device.map((v, k) => (k % 75 >= 60 || k % 113 === 31 ? 75 : v));
  expect(signsIn(rests).filter(({ kind }) => kind === 'spike')).toEqual([]);
});
