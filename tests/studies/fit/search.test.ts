import { describe, expect, test } from 'vitest';
import { searchFrom } from '../../../src/studies/fit/search.ts';

const anywhere = { snapped: (values: readonly number[]) => [...values], spacing: [0] };
const sumOf = (left: Float64Array): number => left.reduce((sum, e) => sum + e * e, 0);
const search = (at: (v: number) => Float64Array, from: number) =>
  searchFrom(
    [from],
    anywhere,
    async ([v]) => at(v!),
    () => {},
  );

describe('searchFrom()', () => {
  /** The frequency of a sine, 1 to 5 periods over the record: hollows one beside the other, of which one is the lowest. */
  const sines = (v: number, truth: number): Float64Array =>
    Float64Array.from({ length: 200 }, (_, i) => {
      const wave = (f: number): number => Math.sin((2 * Math.PI * (1 + 4 * f) * i) / 200);
      return 10 * (wave(v) - wave(truth));
    });

  test('leaves the hollow that it begins in where that does not end at the noise', async () => {
    const found = await search((v) => sines(v, 0.8), 0.1);
    expect(Math.abs(found.values[0]! - 0.8)).toBeLessThan(1e-3);
    expect(found.searches.length).toBeGreaterThan(1);
  });

  test('begins once where the first search ends at the noise', async () => {
    const found = await search((v) => sines(v, 0.12), 0.1);
    expect(Math.abs(found.values[0]! - 0.12)).toBeLessThan(1e-3);
    expect(found.searches.length).toBe(1);
  });

  /** Rounded to stairs of 1/300, as a trim register does, over a kink that no slope sees the bottom of. */
  const stairs = (v: number): Float64Array => {
    const rounded = Math.round(300 * v) / 300;
    return Float64Array.from([40 * Math.sqrt(Math.abs(rounded - 0.537)), 3]);
  };

  test('ends at the lowest stair of its neighbourhood, kink and rounding or not', async () => {
    const found = await search(stairs, 0.3);
    const near = Array.from({ length: 41 }, (_, k) => sumOf(stairs(found.values[0]! + (k - 20) / 1000)));
    expect(found.sumAfter).toBeLessThanOrEqual(Math.min(...near) + 0.25 * 1600 * (1 / 300));
    expect(Math.abs(found.values[0]! - 0.537)).toBeLessThan(0.005);
  });
});
