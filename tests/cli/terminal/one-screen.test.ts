/** A study's answer fits a screen: at most 30 lines with its cautions, however much it has found; all of it is in the report. */
import { expect, it } from 'vitest';
import { cautionLines, cautionsAt } from '../../../src/analysis/words/cautions.ts';
import { wrap } from '../../../src/cli/terminal/columns.ts';
import { plain } from '../../../src/cli/terminal/paint.ts';
import { designsText } from '../../../src/cli/terminal/study/designs-text.ts';
import { dutyText } from '../../../src/cli/terminal/study/duty-text.ts';
import { matrixText } from '../../../src/cli/terminal/study/matrix-text.ts';
import { ratingText } from '../../../src/cli/terminal/study/rating-text.ts';
import { sizeText } from '../../../src/cli/terminal/study/size-text.ts';
import { spreadText } from '../../../src/cli/terminal/study/spread-text.ts';
import { duty } from '../../../src/studies/duty/duty.ts';
import { dutySentence } from '../../../src/studies/duty/paper.ts';
import { planDuty } from '../../../src/studies/duty/plan.ts';
import { matrixSentence } from '../../../src/studies/matrix/paper.ts';
import { planMatrix } from '../../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../../src/studies/matrix/report.ts';
import { ratingSentence } from '../../../src/studies/rating/paper.ts';
import { spreadSentence } from '../../../src/studies/spread/paper.ts';
import { planSpread } from '../../../src/studies/spread/plan.ts';
import { spreadReport } from '../../../src/studies/spread/report.ts';
import type { RunOutcome } from '../../../src/studies/trials/run-outcome.ts';
import { passed } from '../../fixtures/outcome.ts';
import { always, changes, contextHere, designed, rated, sized, studyOf } from '../../studies/here.ts';

const { read } = contextHere();
const most = 30 - cautionLines(cautionsAt(50)).length;

/** Twelve limits, conditions and warnings more than anyone wants to read at once. */
const talkative: RunOutcome = {
  ...passed,
  verdict: 'pass_with_conditions',
  conditions: Array.from({ length: 20 }, (_, k) => `a condition with some words to it, number ${k}`),
  warnings: Array.from({ length: 20 }, (_, k) => `a warning with some words to it, number ${k}`),
  findings: Array.from({ length: 12 }, (_, k) => ({
    ...{ id: `limit-${k}`, column: 'normal', verdict: 'pass', value: 0.5, limit: 1, unit: 'ratio' },
    ...{ headroom_ratio: 0.5, node: 'T1', time_s: 1 },
  })) as unknown as RunOutcome['findings'],
};

const lines = (text: string): readonly string[] => text.split('\n');
const next = 'keep the report: buswake size trays --out out/study';

const outcomes = [
  ['passes', passed],
  ['passes with much to say', talkative],
  ['fails', { ...talkative, verdict: 'fail' as const }],
] as const;

it.each(outcomes)('of a sizing that %s', async (_, outcome) => {
  const study = studyOf('size', 'single-step', { vary: [['trays.power_limit', '10 kW to 26 kW in 9']] });
  const report = await sized(study, { read, run: always(outcome) });
  const said = lines(sizeText(report, next, plain));
  expect(said.length).toBeLessThanOrEqual(most);
  expect(said[0]).toMatch(/^(FOUND|NONE)/);
  expect(said.at(-1)).toBe(`next  ${next}`);
});

it.each(outcomes)('of a study of designs that %s', async (_, outcome) => {
  const study = studyOf('designs', 'single-step', {
    vary: [
      ['trays.count', '8 to 10'],
      ['banks.count', '1 to 2'],
    ],
    words: { objectives: 'losses, headroom' },
  });
  const report = await designed(study, { read, run: always({ ...outcome, loss_mean_W: 1 }) });
  const said = lines(designsText(report, next, plain));
  expect(said.length).toBeLessThanOrEqual(most);
  expect(said[0]).toMatch(/^(FOUND|NONE)/);
  expect(said.at(-1)).toBe(`next  ${next}`);
});

const faults = planMatrix(
  studyOf('matrix', 'single-step', { everyFault: { at: '0.5 s', units: 'one', back: '1 s' } }),
  read,
);
const tolerances = planSpread(
  studyOf('spread', 'single-step', {
    tolerances: [['trays.esr', 'normal by 10 %']],
    words: { samples: '12' },
  }),
  read,
);

it.each(outcomes)('of faults and tolerances where every run %s', (_, outcome) => {
  const grid = matrixReport(
    faults,
    faults.trials.map(() => outcome),
  );
  expect(grid.faults.length).toBeGreaterThan(20);
  const said = lines(matrixText(grid, next, plain));
  expect(said.length).toBeLessThanOrEqual(most);
  expect(said[0]).toBe(lines(wrap(matrixSentence(grid), 120, '  ').join('\n'))[0]);
  expect(said.at(-1)).toBe(`next  ${next}`);
  const yields = spreadReport(
    tolerances,
    tolerances.trials.map(() => outcome),
  );
  const told = lines(spreadText(yields, 'buswake spread tolerances', next, plain));
  expect(told.length).toBeLessThanOrEqual(most);
  expect(told[0]).toBe(wrap(spreadSentence(yields), 120, '  ')[0]);
  expect(told.at(-1)).toBe(`next  ${next}`);
});

it.each(outcomes)('of a rating that %s, with its pulse trains', async (_, outcome) => {
  const study = studyOf('rating', 'pulse-train', {
    cases: [1, 2, 3, 4, 5, 6, 7].map((k) => ({ name: `case ${k}`, changes: [] })),
    words: { from: '80 %', to: '100 %', within: '20 %', duty: '50 %, 70 %', period: '1 s, 2 s, 4 s, 8 s' },
  });
  const report = await rated(study, { read, run: always(outcome) });
  const said = lines(ratingText(report, next, plain));
  expect(said.length).toBeLessThanOrEqual(most);
  expect(said[0]).toBe(wrap(ratingSentence(report), 120, '  ')[0]);
  expect(said.at(-1)).toBe(`next  ${next}`);
});

it('of a duty with many stretches, limits and moments', async () => {
  const lasts = (name: string, hours: number, ...own: string[]) => ({
    name,
    for: `${hours} h`,
    changes: changes(...own),
  });
  const study = studyOf('duty', 'bench-step', {
    changes: changes('batteries.add = B1 in A after K1', 'load.before = 12 kW', 'duration = 2 s'),
    stretches: [
      lasts('day', 8),
      lasts('outage', 0.1, 'events.add = ac-loss all at 0.2 s'),
      lasts('night', 8),
    ],
  });
  const { read: own, run } = contextHere();
  const once = await duty.carryOut(planDuty(study, own), run);
  const many = <T>(list: readonly T[]): readonly T[] => [list, list, list, list].flat();
  const { stretches, findings, moments } = once;
  const report = { ...once, stretches: many(stretches), findings: many(findings), moments: many(moments) };
  const said = lines(dutyText(report, next, plain));
  expect(said.length).toBeLessThanOrEqual(most);
  expect(said[0]).toBe(wrap(dutySentence(report), 120, '  ')[0]);
  expect(said.at(-1)).toBe(`next  ${next}`);
  expect(said.filter((line) => line.length > 200)).toEqual([]);
});
