/** Spreads of runs short enough to draw many. */

import { describe, expect, it, vi } from 'vitest';
import { isEnough } from '../../../src/studies/spread/judge.ts';
import { spreadSentence } from '../../../src/studies/spread/paper.ts';
import { planSample, planSpread } from '../../../src/studies/spread/plan.ts';
import { spreadReport } from '../../../src/studies/spread/report.ts';
import { sampleTrial } from '../../../src/studies/spread/sample-trial.ts';
import { Sampler } from '../../../src/studies/spread/sampling.ts';
import { spread } from '../../../src/studies/spread/spread.ts';
import { passed } from '../../fixtures/outcome.ts';
import { changes, contextHere, messageOf, studyOf } from '../here.ts';

describe('spread', () => {
  const tolerances = [['shelves.set_point_offset', 'uniform from -0.25 % to 0.25 %']] as const;

  it('refuses zero samples, a path that is none, a tolerance that is none', async () => {
    const { read } = contextHere();
    const plan = (parts: Parameters<typeof studyOf>[2]) => () =>
      planSpread(studyOf('spread', 'single-step', parts), read);
    expect(await messageOf(plan({ tolerances, words: { samples: '0' } }))).toMatchInlineSnapshot(`
      "samples
        found     0 samples
        expected  a whole number from 1 to 500000
        mend      write samples: 200, or --samples 200 on the command line
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({ tolerances: [['trays.esrr', 'uniform by 5 %']] }))).toMatchInlineSnapshot(`
      "trays.esrr
        found     path trays.esrr
        expected  a path of the scenario that is a number
        mend      nearest: trays.esr, trays.cost, trays.mass
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({ tolerances: [['trays.esr', 'about 5 %']] }))).toMatchInlineSnapshot(`
      "trays.esr
        found     no tolerance in about 5 %
        expected  a tolerance
        mend      write it like uniform by 5 %, uniform plus -0.25 % to 0.25 %, normal by 3 % or lognormal by 30 %, common
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({ words: { models: 'no' } }))).toMatchInlineSnapshot(`
      "tolerances
        found     nothing to sample
        expected  at least one tolerance
        mend      give for example --tolerance "trays.esr=normal by 10 %"
      1 problem. Nothing was run."
    `);
  });

  it('states no yield, and ends so, where no sample came to a verdict', () => {
    const { read } = contextHere();
    const plan = planSpread(studyOf('spread', 'single-step', { tolerances, words: { samples: '3' } }), read);
    const open = { ...passed, verdict: 'inconclusive' as const };
    const none = spreadReport(plan, [open, open, open]);
    expect([spread.end(none), spreadSentence(none)]).toEqual([
      'inconclusive',
      'No sample came to a verdict: 3 inconclusive.',
    ]);
    const broken = { ...passed, status: 'audit_open' as const };
    expect(spread.end(spreadReport(plan, [broken, open, open]))).toBe('numerical');
    expect(spread.end(spreadReport(plan, [passed, open, open]))).toBe('passed');
  });

  it('refuses a value drawn twice, and draws none of the model where the study says how', async () => {
    const { read } = contextHere();
    const esr = ['trays.esr', 'uniform by 5 %'] as const;
    const twice = studyOf('spread', 'single-step', { tolerances: [esr, ['trays.T1.esr', 'uniform by 5 %']] });
    expect(await messageOf(() => planSpread(twice, read))).toContain(
      'trays.T1.esr beside trays.esr, which reaches it as well',
    );
    const droop = ['shelves.droop', 'uniform by 1 %'] as const;
    const study = studyOf('spread', 'single-step', {
      tolerances: [droop],
      words: { models: 'yes', samples: '2' },
    });
    const paths = planSpread(study, read).trials[0]!.changes.map(({ path }) => path);
    expect(paths.length).toBeGreaterThan(20);
    expect(new Set(paths).size).toBe(paths.length);
  });

  it('draws what the models state where the study names nothing, what is common to the units of a model once', () => {
    const { read } = contextHere();
    const { variables } = planSpread(studyOf('spread', 'single-step', { words: { samples: '2' } }), read);
    const of = (path: string) => variables.filter((one) => one.path === path);
    expect(of('trays.power_lag')).toMatchObject([
      { tolerance: { distribution: 'triangular', low: 1e-4, high: 5e-4, common: true } },
    ]);
    expect(of('trays.power_lag')[0]!.cells).toHaveLength(10);
    expect(variables.filter(({ path }) => path.endsWith('.esr'))).toHaveLength(12);
    // What decides the ripple of AC power from 3 to 20 Hz: none of it is known without a range.
    for (const path of [
      'shelves.power_loop',
      'firmware.smoothing.latency',
      'firmware.smoothing.filter_corner',
    ])
      expect([path, of(path).length]).toEqual([path, 1]);
  });

  it('draws of two models of a kind each unit by its own', () => {
    const { read } = contextHere();
    const study = studyOf('spread', 'single-step', {
      changes: changes('trays.T1.power_lag = 0.2 ms'),
      words: { samples: '2' },
    });
    const lags = planSpread(study, read).variables.filter(({ path }) => path.endsWith('.power_lag'));
    // T1 is what was written: it is not drawn, and the others are no longer the whole kind.
    expect(lags.map(({ path }) => path)).toEqual(
      Array.from({ length: 9 }, (_, k) => `trays.T${k + 2}.power_lag`),
    );
  });

  it('names a drawn value that conditions its samples once, not in each with another number', () => {
    const { read } = contextHere();
    const contact = [['bars.contact.resistance', 'uniform by 20 %']] as const;
    const plan = planSpread(
      studyOf('spread', 'single-step', { tolerances: contact, words: { samples: '3' } }),
      read,
    );
    const outcomes = ['410', '380', '402'].map((value) => ({
      ...passed,
      verdict: 'pass_with_conditions' as const,
      conditions: [`bars.contact.resistance 400 µΩ → ${value} µΩ`, 'tray-life is not judged'],
    }));
    expect(spreadReport(plan, outcomes).samples.map(({ conditions }) => conditions)).toEqual(
      Array(3).fill(['bars.contact.resistance as drawn', 'tray-life is not judged']),
    );
  });

  it('gives back of its report what each sample was run with', async () => {
    const study = studyOf('spread', 'single-step', {
      changes: changes('duration = 0.2 s', 'load.at = 20 ms'),
      tolerances: [
        ['trays.esr', 'uniform by 5 %, common'],
        ['shelves.droop', 'uniform by 1 %'],
      ],
      words: { samples: '2' },
    });
    const { read, run } = contextHere();
    const plan = planSpread(study, read);
    const report = spreadReport(plan, await run(plan.trials));
    expect([1, 2].map((sample) => sampleTrial(report, sample))).toEqual(plan.trials);
  });

  it.each([{ samples: '5' }, { samples: '5', sampling: 'plain' }, { rare: '200' }])(
    'plans one sample of %o alone as it plans it among all',
    (words) => {
      const study = studyOf('spread', 'bench-step', {
        tolerances: [
          ['trays.esr', 'normal by 5 %'],
          ['shelves.droop', 'uniform by 1 %'],
        ],
        words,
      });
      const { read } = contextHere();
      const { trials } = planSpread(study, read);
      for (const sample of [1, 2, trials.length])
        expect(planSample(study, read, sample)).toEqual(trials[sample - 1]);
      expect(() => planSample(study, read, trials.length + 1)).toThrow(/a sample from 1 to/);
    },
  );

  it('draws one of the most samples there may be, and no other', () => {
    const study = studyOf('spread', 'bench-step', {
      tolerances: [['trays.esr', 'uniform by 5 %']],
      words: { samples: '500000' },
    });
    const { read } = contextHere();
    const row = vi.spyOn(Sampler.prototype, 'row');
    expect(planSample(study, read, 499_999).changes).toHaveLength(1);
    expect(row).toHaveBeenCalledTimes(1);
    row.mockRestore();
  });

  it('draws times in whole ticks', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances: [['firmware.smoothing.latency', 'uniform by 50 %']],
      words: { samples: '20' },
    });
    const { read } = contextHere();
    for (const trial of planSpread(study, read).trials) expect(() => read(trial)).not.toThrow();
  });

  it('draws counts whole and evenly: a seed for each sample shifts the sleds anew', () => {
    const study = studyOf('spread', 'training-iterations', {
      tolerances: [['seed', 'uniform from 1 to 4']],
      words: { samples: '40' },
    });
    const { read } = contextHere();
    const plan = planSpread(study, read);
    const seeds = plan.trials.map(({ changes: made }) => made.at(-1)?.value);
    for (const seed of ['1', '2', '3', '4']) expect(seeds.filter((one) => one === seed)).toHaveLength(10);
    expect(read(plan.trials[0]!).scenario.seed).toBe(Number(seeds[0]));
  });

  it('looks for enough only at whole beginnings, so that nobody who finishes first decides', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances,
      words: { samples: '200', half_width: '5 %' },
    });
    const plan = planSpread(study, contextHere().read);
    const enough = isEnough(plan);
    const first = Array.from({ length: 200 }, (_, k) => k + 1).find((n) => enough(new Array(n).fill(passed)));
    expect(first).toBe(40);
    expect(spreadReport(plan, new Array(40).fill(passed))).toMatchObject({
      runs: 40,
      stopped_early: true,
      passed: 40,
    });
  });

  it('counts those that pass with conditions, and names what could not be judged in them', async () => {
    const study = studyOf('spread', 'recorded-training', {
      changes: changes('duration = 1.5 s', 'warm_up = 0.5 s'),
      tolerances: [['shelves.droop', 'uniform by 5 %']],
      words: { samples: '2' },
    });
    const { read, run } = contextHere();
    const plan = planSpread(study, read);
    const report = spreadReport(plan, await run(plan.trials));
    expect([report.passed, report.conditional]).toEqual([2, 2]);
    expect(report.not_judged).toContain('bus-2ms-low');
    expect(spreadSentence(report)).toMatch(/^2 of 2 pass with conditions: yield 100 %/);
  });
});
