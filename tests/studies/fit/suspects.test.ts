import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import type { Adjusted } from '../../../src/studies/fit/adjusted.ts';
import { restsOn } from '../../../src/studies/fit/rests-on.ts';
import { suspectsOf } from '../../../src/studies/fit/suspects.ts';

const parameter = (path: string): Adjusted => ({
  path,
  dimension: 'resistance',
  start: 1,
  low: 0,
  high: 4,
  grid: null,
});
/** Three directions at right angles: what is left, what the fitted parameter does, and something else. */
const wave = (k: number) => Float64Array.from({ length: 64 }, (_, i) => Math.sin((2 * Math.PI * k * i) / 64));
const [rest, fitted, other] = [wave(3), wave(5), wave(7)];
const J = Matrix.columnVector(fitted);

/** What each candidate does for each unit by which it moves. */
const effects: Readonly<Record<string, Float64Array>> = {
  explains: rest.map((e, i) => e + other[i]! + 3 * fitted[i]!),
  alike: fitted,
  elsewhere: other,
};
const leftWith = async ({ path, start }: Adjusted, value: number): Promise<Float64Array> =>
  rest.map((e, i) => e + (value - start) * effects[path]![i]!);

describe('suspectsOf()', () => {
  test('says how much of the rest each leaves, beyond what the fitted one does anyway', async () => {
    const candidates = Object.keys(effects).map(parameter);
    const found = await suspectsOf(candidates, rest, J, leftWith);
    const leaves = Object.fromEntries(found.map(({ path, leaves_ratio }) => [path, leaves_ratio]));
    // Of 32, the sum of squares: each has one number to choose, which must take away ln 64.
    const chosen = Math.log(64) / 32;
    // Beyond what the fitted one does anyway, half of its effect lies along the rest.
    expect(leaves['explains']).toBeCloseTo(0.5 + chosen, 6);
    expect(leaves['alike']).toBeCloseTo(1 + chosen, 6);
    expect(leaves['elsewhere']).toBeCloseTo(1 + chosen, 6);
  });
});

describe('restsOn()', () => {
  const found = (halfWidth: number | null, names: readonly string[]) =>
    restsOn(
      {
        adjusted: [{ ...parameter('found'), low: 2, high: 12 }],
        halfWidths: [halfWidth],
        left: rest,
        sensitivities: J,
      },
      names.map(parameter),
      leftWith,
    );

  test('names a kept parameter that does as the fitted one does, with how far it moves it', async () => {
    // From 1 to 4 is three units of the fitted one, of a box ten wide.
    expect(await found(0.5, ['alike', 'elsewhere'])).toEqual([
      { path: 'alike', at: 4, moves: { found: expect.closeTo(30, 9) } },
    ]);
  });

  test('names none that moves it within its interval, or where there is no interval', async () => {
    expect(await found(3.5, ['alike'])).toEqual([]);
    expect(await found(null, ['alike'])).toEqual([]);
  });
});
