import { expect, it } from 'vitest';
import { numberCell, singleCell } from '../../src/base/csv-cell.ts';
import { meant, roundingOf } from '../../src/base/meant.ts';

it('meant() takes away what rounding left, and nothing else', () => {
  for (const [value, means] of [
    [1.05 - 0.999, 0.051],
    [2.019 * 1000, 2019],
    [-0.1 - 0.2, -0.3],
    [1 / 3, 1 / 3],
    [1e15 + 0.125, 1e15 + 0.125],
    [0, 0],
  ] as const)
    expect(meant(value, 2 * roundingOf(Math.max(1, Math.abs(value))))).toBe(means);
});

it('singleCell() is the shortest text that reads back to the same bits of single precision', () => {
  expect(singleCell(Math.fround(50.08449172973633))).toBe('50.08449');
  const sample = Float32Array.from({ length: 4000 }, (_, k) => 50 + (k * k * 7.3) / 9999 - k / 3);
  for (const value of [
    ...sample,
    ...Float32Array.of(-0, 0, 1e-45, 3.4e38, Number.NaN, Number.POSITIVE_INFINITY),
  ]) {
    const text = singleCell(value);
    expect(Object.is(Math.fround(Number(text)), value)).toBe(true);
    expect(text.length).toBeLessThanOrEqual(numberCell(value).length);
  }
});
