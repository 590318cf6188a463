import { describe, expect, it } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { normalQuantile } from '../../src/studies/spread/quantile.ts';
import { Sampler } from '../../src/studies/spread/sampling.ts';
import {
  histogram,
  percentile,
  rankCorrelation,
  rankNoise,
  wilson,
} from '../../src/studies/spread/statistics.ts';

describe('Sampler', () => {
  it('takes each stratum of a Latin hypercube once for every variable', () => {
    const sampler = new Sampler('latin-hypercube', 40, 7, 3);
    const rows = Array.from({ length: 40 }, (_, k) => sampler.row(k));
    for (let j = 0; j < 7; j++) {
      const strata = rows.map((row) => Math.floor(row[j]! * 40)).sort((a, b) => a - b);
      expect(strata).toEqual(Array.from({ length: 40 }, (_, k) => k));
    }
  });

  it('gives a row by its place alone, whatever was asked before', () => {
    const forwards = new Sampler('plain', 100, 5, 9);
    const alone = new Sampler('plain', 100, 5, 9);
    for (let k = 0; k < 63; k++) forwards.row(k);
    expect(forwards.row(63)).toEqual(alone.row(63));
    expect(new Sampler('plain', 100, 5, 10).row(63)).not.toEqual(alone.row(63));
  });

  it('draws unlike orders for unlike variables', () => {
    const sampler = new Sampler('latin-hypercube', 400, 2, 1);
    const rows = Array.from({ length: 400 }, (_, k) => sampler.row(k));
    const r = rankCorrelation(
      rows.map((row) => row[0]!),
      rows.map((row) => row[1]!),
    );
    expect(Math.abs(r)).toBeLessThan(rankNoise(400));
  });
});

describe('wilson()', () => {
  it('covers the true yield about 95 times of 100, near the middle and near the end', () => {
    for (const p of [0.5, 0.64, 0.9, 0.98]) {
      let covered = 0;
      const seeds = 4000;
      for (let seed = 0; seed < seeds; seed++) {
        const random = new Random(seed);
        let passed = 0;
        for (let k = 0; k < 200; k++) if (random.uniform() < p) passed += 1;
        const [low, high] = wilson(passed, 200);
        if (low <= p && p <= high) covered += 1;
      }
      // The Wilson interval's own coverage for n = 200 lies between 93 and 97.5 % at these yields (it steps with
      // the counts); 4000 seeds add a standard deviation of 0.35 %.
      expect(covered / seeds).toBeGreaterThan(0.925);
      expect(covered / seeds).toBeLessThan(0.985);
    }
  });

  it('stays within 0 to 1 and is open on one side for none and for all', () => {
    expect(wilson(0, 0)).toEqual([0, 1]);
    expect(wilson(0, 40)[0]).toBe(0);
    expect(wilson(40, 40)[1]).toBe(1);
    // z²/(n + z²) for 0 of n.
    expect(wilson(0, 40)[1]).toBeCloseTo(3.841459 / 43.841459, 6);
  });
});

describe('statistics', () => {
  it('normalQuantile() gives the points of the table within its stated error', () => {
    const table = [
      [0.5, 0],
      [0.841344746, 1],
      [0.977249868, 2],
      [0.998650102, 3],
      [0.025, -1.959963985],
    ] as const;
    for (const [p, x] of table) expect(Math.abs(normalQuantile(p) - x)).toBeLessThan(4.5e-4);
  });

  it('rankCorrelation() is 1 for any rising relation, −1 for any falling one, 0 beside a constant', () => {
    const x = [0.3, 2, 0.1, 7, 5];
    const cubes = x.map((v) => v ** 3);
    expect(rankCorrelation(x, cubes)).toBeCloseTo(1, 12);
    expect(
      rankCorrelation(
        x,
        cubes.map((v) => -v),
      ),
    ).toBeCloseTo(-1, 12);
    expect(rankCorrelation(x, [1, 1, 1, 1, 1])).toBe(0);
  });

  it('histogram() counts every value once, also when all are equal', () => {
    expect(histogram([1, 2, 3, 4], 3).counts).toEqual([1, 1, 2]);
    expect(histogram([2, 2, 2]).counts).toEqual([3]);
  });

  it('percentile() goes straight between neighbours', () => {
    expect([0, 0.25, 0.5, 1].map((p) => percentile([4, 0, 2], p))).toEqual([0, 1, 2, 4]);
  });
});
