import { describe, expect, it } from 'vitest';
import type { GainsAxis } from '../../../src/studies/gains/axis.ts';
import { recommend } from '../../../src/studies/gains/recommend.ts';

function axis(path: string, numbers: readonly number[]): GainsAxis {
  return { path, values: numbers.map((x) => `${x} ms`), numbers, unit: 'time', scale: 'even', step: 0 };
}

/** Rows of the first axis, `+` for acceptable. */
function chosen(rows: readonly string[], first = 1) {
  const axes = [
    axis(
      'a',
      rows.map((_, k) => first + k),
    ),
    axis(
      'b',
      [...rows[0]!].map((_, k) => first + k),
    ),
  ] as const;
  return recommend(
    axes,
    rows.map((row) => [...row].map((sign) => sign === '+')),
    () => 0,
  );
}

describe('the recommended point', () => {
  it('is the one deepest inside, without doubts, with the value at which each side ends', () => {
    const found = chosen(['-------', '-+++++-', '-+++++-', '-+++++-', '-+++++-', '-+++++-', '-------'])!;
    expect(found.place).toEqual([3, 3]);
    expect(found.doubts).toEqual([]);
    expect(found.edges.map(({ text, beyond }) => [text, beyond])).toEqual([
      ['2 ms', '1 ms'],
      ['6 ms', '7 ms'],
      ['2 ms', '1 ms'],
      ['6 ms', '7 ms'],
    ]);
  });

  it('is doubted where its neighbour on the grid is not acceptable', () => {
    const found = chosen(['---', '-+-', '---'])!;
    expect(found.doubts).toHaveLength(4);
    expect(found.doubts[0]).toMatch(/^a 2 ms is acceptable and 1 ms, the next point of the grid, is not/);
  });

  it('is doubted where it lies on the border of the map, save below zero', () => {
    expect(chosen(['++', '++'])!.doubts[0]).toMatch(/^a 1 ms is the first value of its axis/);
    expect(chosen(['++', '++'], 0)!.doubts).toEqual([]);
  });

  it('is none where nothing is acceptable', () => {
    expect(chosen(['--', '--'])).toBeNull();
  });
});
