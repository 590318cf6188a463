/**
 * Two droop sources with set points drawn evenly from V (1 ± a): each carries I/2 ± (V1 − V2)/(2 R), so the share
 * of cabinets whose error stays within e of rated is that of |V1 − V2| ≤ t = 2 R e I_r. The difference of two such
 * draws is spread like a triangle on ± 2 a V, so the yield is 1 − (1 − t/(2 a V))².
 * Source: the textbook relation for parallel droop sources, for example Luo et al., "A classification and
 * evaluation of paralleling methods for power supply modules", PESC 1999; the rest is arithmetic.
 * Tolerance: the 95 % Wilson interval of the samples. Bars of 1 nΩ leave the rest of the error below 1e-3 of rated.
 */
import { expect, it } from 'vitest';
import { readQuantity } from '../../src/base/quantity.ts';
import { isEnough } from '../../src/studies/spread/judge.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { spreadReport } from '../../src/studies/spread/report.ts';
import type { RunOutcome } from '../../src/studies/trials/run-outcome.ts';
import { passed } from '../fixtures/outcome.ts';
import { changes, contextHere, studyOf } from '../studies/here.ts';
import { published } from './published.ts';

const yields = published({
  what: 'yield of two droop sources over their set points, 120 samples',
  source: 'droop relation (Luo et al. 1999), the rest arithmetic',
  absolute: true,
});

/** The smallest cabinet: two shelves and a tie. At 150 A each, 21 % of rated, none comes to rest over this droop. */
const small = '../tests/fixtures/small';
const twoShelves = [
  'load.power = 15 kW',
  'shelves.droop = 1 mΩ',
  'shelves.set_point_offset = 0 %',
  'firmware.share.time_constant = 1 ks',
  'bars.segment.resistance = 1 nΩ',
  'bars.rack_segment.resistance = 1 nΩ',
  'bars.links.resistance = 1 nΩ',
  'bars.tie.resistance = 1 nΩ',
];
const a = 0.0025;
const e = 0.1;
const [V, R, rated_A] = [50.25, 1e-3, 720];

/** Largest difference of the no-load voltages that keeps the share error within e [V], and the yield it leaves. */
const t = 2 * R * e * rated_A;
const exact = 1 - (1 - t / (2 * a * V)) ** 2;

it('a spread over set points finds the yield that droop sources have in closed form, for two ways of sampling', async () => {
  expect(exact).toBeCloseTo(0.8178, 4);
  for (const sampling of ['plain', 'latin-hypercube']) {
    const context = contextHere();
    const study = studyOf('spread', small, {
      changes: [
        ...changes(...twoShelves),
        // Every other limit is left out: two shelves are no cabinet.
        ...onlyShare(context),
      ],
      tolerances: [
        ['shelves.S1.set_point_offset', `uniform plus ${100 * a} %`],
        ['shelves.S2.set_point_offset', `uniform plus ${100 * a} %`],
      ],
      words: { samples: '120', sampling, seed: '4' },
    });
    const plan = planSpread(study, context.read);
    const report = spreadReport(plan, await context.run(plan.trials, isEnough(plan)));
    expect(report.fails.map(({ limit }) => limit)).toEqual(['share-steady-low']);
    const [low, high] = report.interval_ratio;
    expect(low).toBeLessThan(exact);
    expect(high).toBeGreaterThan(exact);
    yields({ which: sampling, expected: exact, found: report.yield_ratio, tolerance: (high - low) / 2 });
  }
});

it('the interval of a spread covers that yield as often as it says, over many seeds and both ways of sampling', () => {
  const { read } = contextHere();
  const base = read({ scenario: 'scenarios/pulse-train.yaml', changes: [] });
  const seeds = 400;
  for (const [sampling, least, most] of [
    // 95 % of independent samples, four standard deviations of 400 seeds (1.1 %) either way.
    ['plain', 0.906, 0.994],
    // A Latin hypercube spreads its samples evenly over each set point: it misses less often than independent ones.
    ['latin-hypercube', 0.95, 1],
  ] as const) {
    let covered = 0;
    for (let seed = 1; seed <= seeds; seed++) {
      const study = studyOf('spread', 'pulse-train', {
        tolerances: [
          ['shelves.S1.set_point_offset', `uniform from ${-100 * a} % to ${100 * a} %`],
          ['shelves.S5.set_point_offset', `uniform from ${-100 * a} % to ${100 * a} %`],
        ],
        words: { samples: '120', sampling, seed: String(seed) },
      });
      const plan = planSpread(study, () => base);
      const outcomes = plan.trials.map(({ changes: drawn }): RunOutcome => {
        const [one, other] = drawn.map(({ value }) => {
          const reading = readQuantity(value, 'ratio');
          return reading.ok ? V * reading.value : Number.NaN;
        });
        const verdict = Math.abs(one! - other!) <= t ? 'pass' : 'fail';
        return { ...passed, verdict };
      });
      const [low, high] = spreadReport(plan, outcomes).interval_ratio;
      if (low <= exact && exact <= high) covered += 1;
    }
    expect(covered / seeds).toBeGreaterThanOrEqual(least);
    expect(covered / seeds).toBeLessThanOrEqual(most);
  }
});

function onlyShare({ read }: ReturnType<typeof contextHere>): ReturnType<typeof changes> {
  const { scenario } = read({ scenario: `scenarios/${small}.yaml`, changes: [] });
  return scenario.limits.map(({ id }) => ({
    path: `limits.${id}.normal`,
    value: id === 'share-steady-low' ? `${e}` : 'none',
  }));
}
