/** A channel that is made of others is told from devices that run in step. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { combined } from '../../../src/samples/signs/combined.ts';
import { busy, channel } from './known-signal.ts';

const parts = [1, 2, 3].map((seed) => busy(3000, seed));
const total = (of: readonly Float64Array[], k: number): number =>
  of.reduce((sum, values) => sum + values[k]!, 0);
const made = (of: (k: number) => number): Float64Array => parts[0]!.map((_, k) => of(k));
const found = (...values: readonly Float64Array[]): string | null => {
  const channels = values.map((v, k) => channel(v, 'abcdefgh'[k]));
  const one = combined(channels);
  return one === null ? null : `${channels[one.whole]!.name} ${one.words}`;
};
const [a, b, c] = parts as [Float64Array, Float64Array, Float64Array];
const twelve = Array.from({ length: 12 }, (_, k) => busy(3000, k + 1));
const random = new Random(5);

describe('found:', () => {
  test.each([
    ['a sum of all', [a, b, made((k) => total([a, b], k))], /^c is the sum a \+ b$/],
    ['a rounded sum', [a, b, c, made((k) => Math.round(total(parts, k)))], /^d is the sum a \+ b \+ c$/],
    ['a sum of some', [a, b, c, made((k) => total([a, c], k))], /^d is the sum a \+ c$/],
    ['a mean', [a, b, made((k) => Math.round(500 * total([a, b], k)) / 1000)], /^c is the mean of a \+ b$/],
    [
      'a meter of its own, with losses and an offset',
      [a, b, made((k) => 1.06 * total([a, b], k) + 120 + 15 * random.gaussian())],
      /^c follows the sum a \+ b, at 1\.0[56]\d* times its changes/,
    ],
    [
      'a sum that is late',
      [a, b, made((k) => total([a, b], Math.max(0, k - 50)))],
      /^c follows the sum a \+ b, 1 s later$/,
    ],
    ['a sum that is early', [a, b, made((k) => total([a, b], Math.min(2999, k + 20)))], /earlier$/],
    [
      'the highest of all',
      [a, b, made((k) => Math.max(a[k]!, b[k]!))],
      /^c is the highest of a, b in every sample$/,
    ],
    ['the lowest of all', [a, b, made((k) => Math.min(a[k]!, b[k]!))], /lowest/],
    ['the sum of twelve', [...twelve, made((k) => total(twelve, k))], /is the sum/],
  ] as const)('%s', (_, values, words) => {
    expect(found(...values)).toMatch(words);
  });
});

describe('not found:', () => {
  test.each([
    ['devices in step', [a, b, c]],
    ['eight devices in step', Array.from({ length: 8 }, (_, k) => busy(3000, k + 10))],
    [
      'devices in step, one of twice the power and with moves of its own',
      [a, b, made((k) => 2 * c[k]! * (1 + 0.1 * Math.sin(k / 40)))],
    ],
    ['a device beside two small ones', [a, made((k) => b[k]! / 20), made((k) => c[k]! / 10)]],
    ['two channels alone', [a, made((k) => 2 * a[k]!)]],
  ] as const)('%s', (_, values) => {
    expect(found(...values)).toBeNull();
  });
});
