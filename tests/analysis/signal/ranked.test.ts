import { expect, it } from 'vitest';
import { ranked } from '../../../src/analysis/signal/ranked.ts';

const spiky = Float64Array.from({ length: 5000 }, (_, j) => (((j * 7919) % 4999) / 4999) ** 9);

it.each([
  ['spiky values', spiky],
  ['one value for all', new Float64Array(20).fill(3)],
  ['two values', Float64Array.from({ length: 30 }, (_, j) => j % 2)],
  ['values of which one is none', Float64Array.of(3, Number.NaN, 1, 2)],
])('ranked() of %s is what stands there when all are sorted', (_, values) => {
  const ranks = [0, 1, Math.floor(values.length / 3), values.length - 2, values.length - 1, 0];
  const sorted = Float64Array.from(values).sort();
  expect(ranked(values, ranks)).toEqual(ranks.map((rank) => sorted[rank]));
});
