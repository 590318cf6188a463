import { describe, expect, test } from 'vitest';
import { profileOf } from '../../../src/studies/fit/profile.ts';

const factor = 1.96;
const freedom = 400;
/** Growth of the sum of squares that noise alone explains. */
const grown = (factor * factor) / freedom;
const anywhere = (values: readonly number[]): number[] => [...values];

/** One parameter at 0.5 whose sum of squares, 400 at its least, grows by what `shape` says of the distance. */
const caseOf = (shape: (distance: number) => number, spacing = 0, snapped = anywhere) => ({
  values: [0.5],
  sum: 400,
  following: () => [1],
  sumAt: async ([v]: readonly number[]) => 400 * (1 + shape(v! - 0.5)),
  variance: 400 / freedom,
  factor,
  box: { snapped, spacing: [spacing] },
});

describe('profileOf()', () => {
  test('is the linear interval where the model is straight', async () => {
    const {
      ends: [low, high],
    } = await profileOf(
      caseOf((d) => grown * (d / 0.03) ** 2),
      0,
      0.03,
    );
    expect(low).toBeCloseTo(0.47, 3);
    expect(high).toBeCloseTo(0.53, 3);
  });

  test('tells what it tried, along which t is in proportion where the model is straight', async () => {
    const { points } = await profileOf(
      caseOf((d) => grown * (d / 0.03) ** 2),
      0,
      0.01,
    );
    expect(points.length).toBeGreaterThanOrEqual(5);
    expect(points.map(({ moved }) => moved)).toEqual(points.map(({ moved }) => moved).sort((a, b) => a - b));
    for (const { moved, t } of points) expect(t).toBeCloseTo((factor * moved) / 0.03, 9);
  });

  test('is lopsided where the model bends, as wide on either side as the sum of squares says', async () => {
    // Twice as steep below as above.
    const bent = (d: number): number => grown * (d / (d < 0 ? 0.02 : 0.04)) ** 2;
    const {
      ends: [low, high],
    } = await profileOf(caseOf(bent), 0, 0.03);
    expect(Math.abs(low - 0.48)).toBeLessThan(0.05 * 0.02);
    expect(Math.abs(high - 0.54)).toBeLessThan(0.05 * 0.04);
  });

  test('ends at the end of the box where the measurement bounds nothing', async () => {
    const {
      ends: [low, high],
    } = await profileOf(
      caseOf((d) => (d < 0 ? grown * (d / 0.03) ** 2 : 0)),
      0,
      0.03,
    );
    expect(low).toBeCloseTo(0.47, 3);
    expect(high).toBe(1);
  });

  test('ends beyond the stair that is too high, never inside it', async () => {
    const stair = (d: number): number => (Math.abs(d) < 0.025 ? 0 : 4 * grown);
    const {
      ends: [low, high],
    } = await profileOf(caseOf(stair), 0, 0.02);
    expect(low).toBeLessThanOrEqual(0.475);
    expect(high).toBeGreaterThanOrEqual(0.525);
    expect(high - low).toBeLessThan(0.1);
  });

  test('takes whole steps of a coarse grid', async () => {
    const byTenths = (values: readonly number[]): number[] => values.map((v) => Math.round(10 * v) / 10);
    // One step is within the noise upwards, none downwards.
    const shape = (d: number): number => (d < 0 ? 9 : d < 0.15 ? 0.2 : 9) * grown;
    const {
      ends: [low, high],
    } = await profileOf(caseOf(shape, 0.1, byTenths), 0, 0.05);
    expect([low, high]).toEqual([0.5, 0.6]);
  });
});
