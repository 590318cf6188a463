/**
 * Yields that are known: samples of one uniform value, of which a known part passes. The interval is meant to hold the yield 95
 * times of 100, so that of 200 seeds 183 do so but once in a hundred such tests (binomial: 190 less 2.3 standard deviations).
 */
import { expect, it } from 'vitest';
import { isEnough } from '../../../src/studies/spread/judge.ts';
import type { SpreadPlan } from '../../../src/studies/spread/plan.ts';
import { Sampler } from '../../../src/studies/spread/sampling.ts';
import { wilson } from '../../../src/studies/spread/statistics.ts';
import { passes, type RunOutcome } from '../../../src/studies/trials/run-outcome.ts';
import { passed } from '../../fixtures/outcome.ts';

const fails: RunOutcome = { ...passed, verdict: 'fail' };

it.each([
  ['plain', 0.9],
  ['plain', 0.5],
  ['latin-hypercube', 0.9],
] as const)(
  'the interval of %s samples, ended at ±0.02, holds a yield of %s in 183 of 200 seeds',
  (sampling, share) => {
    let covered = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const samples = 2600;
      const sampler = new Sampler(sampling, samples, 1, seed);
      const enough = isEnough({ half_width: 0.02 } as SpreadPlan);
      const outcomes: RunOutcome[] = [];
      // In an order that no sample knows of, as the bench hands them on: one after another.
      for (let k = 0; k < samples && !enough(outcomes); k++)
        outcomes.push(sampler.row(k)[0]! < share ? passed : fails);
      const [low, high] = wilson(outcomes.filter(passes).length, outcomes.length);
      expect(high - low).toBeLessThanOrEqual(0.04);
      if (low <= share && share <= high) covered += 1;
    }
    expect(covered).toBeGreaterThanOrEqual(183);
  },
);
