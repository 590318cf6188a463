/** Filters and waves over columns: compiled and as they stand the same bits, and what they are by definition. */
import { describe, expect, it } from 'vitest';
import { cosineOfTurns } from '../../src/base/sine.ts';
import { compiled } from '../../src/dense/compiled.ts';
import { filter, wave } from '../../src/dense/filters.ts';
import { filterColumn, waveColumn } from '../../src/dense/samples.ts';

const count = 1000;
const terms = Float64Array.of(0.2, 0.3, 0.1, -0.5, 0.2, 1, -1, 0.25, 0.1, -0.3);
const given = (): Float64Array => Float64Array.from({ length: count }, (_, j) => ((j * 7919) % 1013) / 1013);

describe('a column through sections', () => {
  it('has the same bits compiled and as it stands', () => {
    expect(compiled()).not.toBeNull();
    const [plain, keptPlain] = [given(), Float64Array.of(0.1, 0.2, 0.3, 0.4)];
    filter(plain, count, terms, keptPlain, 2);
    const [fast, kept] = [given(), Float64Array.of(0.1, 0.2, 0.3, 0.4)];
    filterColumn(fast, terms, kept);
    expect([fast, kept]).toEqual([plain, keptPlain]);
  });

  it('goes on from one column to the next, however short', () => {
    const whole = given();
    filterColumn(whole, terms, new Float64Array(4));
    const kept = new Float64Array(4);
    const parts = given();
    for (const [from, to] of [
      [0, 1],
      [1, 30],
      [30, 700],
      [700, count],
    ] as const)
      filterColumn(parts.subarray(from, to), terms, kept);
    expect(parts).toEqual(whole);
  });

  it('is its difference equation', () => {
    const x = Float64Array.of(1, 2, -1, 0, 0.5);
    const one = Float64Array.of(0.2, 0.3, 0.1, -0.5, 0.2);
    const y = x.slice();
    filterColumn(y, one, new Float64Array(2));
    const at = (column: Float64Array, j: number): number => column[j] ?? 0;
    for (let j = 0; j < x.length; j++)
      expect(y[j]).toBeCloseTo(
        0.2 * at(x, j) + 0.3 * at(x, j - 1) + 0.1 * at(x, j - 2) + 0.5 * at(y, j - 1) - 0.2 * at(y, j - 2),
        14,
      );
  });
});

it('a wave has the bits of its cosines, compiled and as it stands', () => {
  const [plain, fast] = [new Float64Array(count), new Float64Array(count)];
  wave(plain, count, 123_456, 0.04);
  waveColumn(fast, 123_456, 0.04);
  expect(fast).toEqual(plain);
  expect(fast[17]).toBe(cosineOfTurns(0.04 * 123_473));
});
