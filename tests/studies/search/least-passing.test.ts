import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastPassing, type Tried } from '../../../src/studies/search/least-passing.ts';

/** Candidates of known headrooms; counts how many were tried. */
function made(count: number, limits: Readonly<Record<string, (k: number) => number>>) {
  const tried: number[] = [];
  const tryThem = async (indices: readonly number[]): Promise<Tried[]> =>
    indices.map((k) => {
      tried.push(k);
      const headrooms = new Map(Object.entries(limits).map(([limit, at]) => [limit, at(k)]));
      return { passes: [...headrooms.values()].every((headroom) => headroom >= 0), headrooms };
    });
  const brute = Array.from({ length: count }, (_, k) => k).find((k) =>
    Object.values(limits).every((at) => at(k) >= 0),
  );
  return { tried, brute: brute ?? null, found: () => leastPassing(count, tryThem) };
}

describe('leastPassing()', () => {
  it('agrees with trying everything wherever more never hurts, and tries far less', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 13, max: 400 }), fc.nat(400), fc.nat(400), async (count, a, b) => {
        const row = made(count, { ripple: (k) => (k - a) / count, ramp: (k) => 2 * (k - b + 0.5) });
        const { least, reversed } = await row.found();
        expect([least, reversed]).toEqual([row.brute, []]);
        expect(row.tried.length).toBeLessThanOrEqual(5 + Math.ceil(Math.log2(count)));
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it('tries everything and says so where a limit passes at less and fails at more', async () => {
    // More droop shares better and sags deeper: only the middle passes, between two of the first five.
    const row = made(41, { share: (k) => k - 13, sag: (k) => 17 - k });
    const found = await row.found();
    expect([found.least, found.whole, found.reversed]).toEqual([13, true, ['sag']]);
    expect(found.least).toBe(row.brute);
  });

  it('finds an island of failures that a halving alone would step over', async () => {
    // Passes from 8 on, but for a resonance about 20 that one of the first five touches.
    const row = made(41, { gain: (k) => (k - 7.5) / 40, peak: (k) => Math.abs(k - 20) / 20 - 0.05 });
    const found = await row.found();
    expect([found.least, found.whole, found.reversed]).toEqual([8, true, ['peak']]);
  });

  it('agrees with trying everything for any two limits that bend once, unless a gap hides between what it tried', async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(60), fc.nat(60), fc.integer({ min: 20, max: 40 }), async (a, b, wide) => {
        const row = made(60, { rising: (k) => (k - a) / 60, bent: (k) => (wide - Math.abs(k - b)) / 60 });
        expect((await row.found()).least).toBe(row.brute);
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it('gives none where nothing passes', async () => {
    const row = made(50, { never: () => -0.2, mostly: (k) => k - 3 });
    expect((await row.found()).least).toBe(null);
  });
});
