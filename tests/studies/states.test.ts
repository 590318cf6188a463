/** What is open in a trial reaches every study's answer: conditions, warnings, runs without a verdict, faults not felt. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { matrixText } from '../../src/cli/terminal/study/matrix-text.ts';
import { runWhole } from '../../src/studies/bench/run-whole.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { decidedWords, matrixCsv, matrixSentence } from '../../src/studies/matrix/paper.ts';
import { planMatrix } from '../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../src/studies/matrix/report.ts';
import { ratingSentence } from '../../src/studies/rating/paper.ts';
import { sizeEnd, sizeWord } from '../../src/studies/size/judge.ts';
import { sizeMarkdown, sizeSentence } from '../../src/studies/size/paper.ts';
import { spreadCsv, spreadSentence } from '../../src/studies/spread/paper.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { spreadReport } from '../../src/studies/spread/report.ts';
import { bindingOf, passes, type RunOutcome } from '../../src/studies/trials/run-outcome.ts';
import { letterOf, simulationsWords, statesOf, statesWords } from '../../src/studies/trials/states.ts';
import { readStudy } from '../../src/studies/written/read-study.ts';
import { passed } from '../fixtures/outcome.ts';
import { always, changes, contextHere, rated, sized, studyOf } from './here.ts';

const shelf = new Shelf(new DiskSource());
/** The step at 0.1 s and the half second that its consequences need. */
const short = 'duration = 0.62 s';

function outcome(...pairs: readonly string[]): RunOutcome {
  return runWhole(shelf, { scenario: 'scenarios/single-step.yaml', changes: changes(short, ...pairs) })
    .outcome;
}

/** A trial of a scenario that the reader warns of: a set point of twice the usual offset. */
const warned = 'shelves.S1.output_capacitance = 0.5 mF';

const open: RunOutcome = {
  ...passed,
  status: 'audit_open',
  verdict: 'inconclusive',
  summary: 'Inconclusive.',
};

/** A study whose every trial comes out so. */
const all = (one: RunOutcome) => ({
  read: contextHere().read,
  run: always(one),
});
const vary = studyOf('size', 'single-step', { vary: [['trays.count', '9 to 10']] });

describe('a trial', () => {
  it('carries what the reader of its files warned of', () => {
    const one = outcome(warned);
    expect(one.warnings.join()).toContain('S1.output_capacitance');
    expect(outcome().warnings).toEqual([]);
    expect(statesWords(statesOf([one, outcome()]))).toContain('; 1 with warnings');
  });

  it.each([
    ['a limit that was removed', ['limits.bus-floor.normal = none']],
    ['a rating that was changed', ['feeders.F1.breaker_current = 400 A']],
    ['an outage stated that no event makes', ['outage = yes']],
  ])('with %s is no clean pass', (_, pairs) => {
    const one = outcome(...pairs);
    expect([letterOf(one), passes(one)]).toEqual(['C', true]);
    expect(statesOf([one]).conditions).not.toEqual([]);
  });

  it('without a verdict is none, whatever its findings say', () => {
    for (const status of ['audit_open', 'non_finite'] as const) {
      const one: RunOutcome = { ...passed, status };
      expect([letterOf(one), passes(one), bindingOf(one)]).toEqual(['E', false, null]);
    }
    expect(letterOf({ ...passed, status: 'collapsed', verdict: 'fail' })).toBe('X');
  });
});

describe('a waiver', () => {
  it('reaches the study that a waived scenario is in, as a condition that names its limit', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'buswake-')), 'waived.yaml');
    const shipped = readFileSync('scenarios/single-step.yaml', 'utf8');
    writeFileSync(
      file,
      `${shipped.replace('../models/', `${process.cwd()}/models/`)}
waivers:
  - { limit: share-transient, reason: agreed, by: reviewer }
`,
    );
    const strict = changes(short, 'limits.share-transient.normal = 0.1 %');
    const study = { ...studyOf('matrix', 'single-step', { changes: strict }), scenario: file };
    const { read, run } = contextHere();
    const plan = planMatrix(study, read);
    const report = matrixReport(plan, await run(plan.trials));
    expect(report.cells.map(({ letter, conditions }) => [letter, conditions])).toEqual([
      ['C', expect.arrayContaining(['share-transient waived'])],
    ]);
    expect(report.states).toMatchObject({ passed: 0, conditional: 1 });
  });
});

describe('a study of which no trial came to a verdict', () => {
  it('finds no size', async () => {
    const report = await sized(vary, all(open));
    expect(report.result).toBe(null);
    expect(sizeWord(report)).toBe('INCONCLUSIVE');
    expect(sizeSentence(report)).toBe(
      'No candidate came to a verdict: 2 numerical failure without a verdict.',
    );
    expect(sizeEnd(report)).toBe('numerical');
    const undecided = await sized(vary, all({ ...open, status: 'ok' }));
    expect(sizeSentence(undecided)).toBe('No candidate came to a verdict: 2 inconclusive.');
    expect(sizeEnd(undecided)).toBe('inconclusive');
  });

  it('finds no rating', async () => {
    const study = studyOf('rating', 'single-step', { words: { from: '90 %', to: '100 %', within: '10 %' } });
    const report = await rated(study, all(open));
    expect(report.scale_ratio).toBe(null);
    expect(ratingSentence(report)).toMatch(/^No scale of \S+, \S+ came to a verdict: 2 numerical failure/);
  });

  it('has no yield', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances: [['trays.esr', 'normal by 10 %']],
      words: { samples: '3' },
    });
    const plan = planSpread(study, contextHere().read);
    expect(spreadSentence(spreadReport(plan, [open, open, open]))).toMatch(/^No sample came to a verdict: 3/);
    const mixed = spreadReport(plan, [passed, open, { ...passed, verdict: 'pass_with_conditions' }]);
    expect(mixed.yield_ratio).toBe(1);
    expect(spreadSentence(mixed)).toMatch(
      /^2 of 2 pass, some with conditions: .* Of 3 samples 1 pass, 1 pass with conditions, 1 numerical failure without a verdict\.$/,
    );
    expect(spreadCsv(mixed)).toContain('2,inconclusive,audit_open,');
    const drawn = [{ path: 'bars.tie.resistance', values: ['719.582 µΩ', '1 mΩ'] }];
    const [head, first] = spreadCsv({ ...mixed, drawn }).split(/\r?\n/);
    expect(head).toMatch(/,bars.tie.resistance_ohm$/);
    expect(first).toMatch(/,0.000719582$/);
  });
});

describe('an answer', () => {
  it('that rests on a removed limit is found with conditions, in words and report', async () => {
    const report = await sized(
      { ...vary, changes: changes('duration = 0.62 s', 'limits.bus-floor.normal = none') },
      contextHere(),
    );
    expect(sizeWord(report)).toBe('FOUND, WITH CONDITIONS');
    expect(sizeSentence(report)).toMatch(/is the least that passes with conditions.* Its conditions: /);
    // Said once, by the answer itself.
    expect(sizeMarkdown(report).match(/conditions: /gi)).toHaveLength(1);
    expect(report.candidates.map(({ letter }) => letter)).toEqual(['C', 'C']);
    expect(report.states).toMatchObject({ passed: 0, conditional: 2 });
  });

  it('on its limit says so, and a tie decides nothing', async () => {
    const finding = {
      id: 'line-current-continuous',
      column: 'normal',
      verdict: 'pass',
      value: 0.8 * (1 + 1e-7),
      limit: 0.8,
      unit: 'ratio',
      headroom_ratio: 0,
      node: 'F1',
      time_s: null,
    } as const;
    const report = await sized(vary, all({ ...passed, findings: [finding] }));
    expect(report.result).toEqual({ 'trays.count': '9' });
    expect(sizeSentence(report)).toContain('line-current-continuous is tightest at F1, it is at its limit');
  });

  it('says by how much the next smaller candidate exceeds its limit', async () => {
    const report = await sized(
      {
        ...vary,
        changes: changes('duration = 0.62 s', 'limits.tray-capacitor-rms.normal = none'),
        vary: [['trays.power_limit', '12 kW | 20 kW']],
      },
      contextHere(),
    );
    expect(report.result).toEqual({ 'trays.power_limit': '20 kW' });
    expect(report.binding?.below_ratio).toBeLessThan(0);
    expect(sizeSentence(report)).toMatch(
      /one step less exceeds \S+.* by [\d.]+ % of its allowance; here it keeps/,
    );
  });
});

describe('a cell of a matrix', () => {
  it('shows the limit that decides with its own value, limit and headroom', async () => {
    const study = studyOf('matrix', 'single-step', {
      changes: changes(short),
      corners: [
        { name: 'bars', changes: changes('limits.section-balance.normal = 0.01 %') },
        // A count has no headroom: another limit's must not stand in its place.
        { name: 'sleds', changes: changes('sleds.peak_power = 9 kW') },
      ],
    });
    const { read, run } = contextHere();
    const plan = planMatrix(study, read);
    const report = matrixReport(plan, await run(plan.trials));
    for (const cell of report.cells) {
      const trial = outcome(
        ...plan.trials[report.cells.indexOf(cell)]!.changes.slice(1).map(
          ({ path, value }) => `${path} = ${value}`,
        ),
      );
      const own = trial.findings.find(({ id, verdict }) => id === cell.binding && verdict === 'fail')!;
      expect([cell.value, cell.limit, cell.unit]).toEqual([own.value, own.limit, own.unit]);
      expect(cell.headroom_ratio).toBe(own.headroom_ratio);
    }
    const sleds = report.cells[1]!;
    expect([sleds.binding, sleds.headroom_ratio]).toEqual(['sled-power', null]);
    expect(decidedWords(sleds)).toMatch(/^sled-power \d+(\.\d)? % against 105 %$/);
    expect(matrixCsv(report)).toContain('sled-power,');
  });

  it('names the state of one that no limit decides, counts it, and never calls it a pass', () => {
    const study = studyOf('matrix', 'single-step', {
      corners: [
        { name: 'a', changes: [] },
        { name: 'b', changes: [] },
      ],
    });
    const plan = planMatrix(study, contextHere().read);
    const report = matrixReport(plan, [passed, open]);
    expect(matrixSentence(report)).toBe(
      'Of 2 cells 1 pass, 1 numerical failure without a verdict; worst is audit open: no fault, b.',
    );
    expect(matrixText(report, 'next', (_, words) => words)).toContain('E audit open');
    const told = matrixReport(plan, [
      passed,
      { ...passed, warnings: ['S1 is odd'], conditions: ['on trust'], verdict: 'pass_with_conditions' },
    ]);
    const text = matrixText(told, 'next', (_, words) => words);
    expect(text).toContain('Conditions: on trust.');
    expect(text).toContain('Warnings: S1 is odd.');
    expect(matrixSentence(told)).toMatch(/^Of 2 cells 1 pass, 1 pass with conditions; 1 with warnings;/);
  });
});

describe('a fault that is not tried', () => {
  const faulty = (event: string, ...pairs: readonly string[]): RunOutcome =>
    runWhole(shelf, {
      scenario: 'scenarios/single-step.yaml',
      changes: changes('duration = 0.9 s', ...pairs, `events.add = ${event}`),
    }).outcome;

  it.each([
    ['falls outside the judged window', 'tray-out T4 at 0.05 s', ['warm_up = 0.1 s']],
    ['falls outside the judged window', 'shelf-trip S4 at 0.02 s', ['warm_up = 0.2 s']],
    ['changed nothing', 'set-point-shift S4 by 0 % at 0.2 s', []],
    ['changed nothing', 'ac-sag all to 100 % for 50 ms at 0.15 s', []],
    ['changed nothing', 'signal-late smoothing by 0 ms at 0.15 s', []],
  ])('because it %s is inconclusive: %s', (why, event, pairs) => {
    const one = faulty(event, ...pairs);
    expect([letterOf(one), passes(one)]).toEqual(['N', false]);
    expect(one.summary).toContain(why);
  });

  it('is told from one that is, whatever kind of event it is', async () => {
    const study = studyOf('matrix', 'single-step', {
      changes: changes('duration = 0.3 s'),
      everyFault: { at: '0.15 s', units: 'one', back: '0.2 s' },
    });
    const { read, run } = contextHere();
    const { trials, places } = planMatrix(study, read);
    const outcomes = await run(trials);
    const hidden = outcomes.flatMap(({ summary }, k) =>
      /changed nothing|outside the judged/.test(summary) ? [places[k]!.fault] : [],
    );
    expect(hidden).toEqual([]);
  });

  it('says nothing of one that is tried', () => {
    const one = faulty('tray-out T4 at 0.2 s');
    expect(one.conditions.join()).not.toContain('tray-out');
    expect(one.summary).not.toContain('changed nothing');
  });

  it('after the end of the run is refused at its line', () => {
    const text = `study: matrix
title: Late
scenario: ../../scenarios/single-step.yaml
changes: [duration = 0.3 s]
faults:
  tray out: [events.add = tray-out T4 at 0.2 s]
  too late: [events.add = tray-out T4 at 0.3 s]
`;
    const study = readStudy('tests/studies/late.yaml', 'matrix', () => ({ text, sha256: '' }));
    let message = '';
    try {
      planMatrix({ ...study, scenario: 'scenarios/single-step.yaml' }, contextHere().read);
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      message = error.message;
    }
    expect(message).toMatchInlineSnapshot(`
      "tests/studies/late.yaml:7:13  faults.too late
        found     tray-out T4 at 300 ms
        expected  before the end of the run at 300 ms
        mend      lengthen the run or move the fault
      1 problem in 1 file. Nothing was run."
    `);
  });
});

it('simulationsWords() says where those went whose states do not stand behind it', () => {
  const none = statesOf([]);
  const states = { ...none, passed: 28, conditional: 18, failed: 10 };
  expect(simulationsWords(76, states, ['candidates', 'levers'])).toBe(
    '76 simulations, 56 of candidates and 20 of levers: 28 pass, 18 pass with conditions, 10 fail',
  );
  expect(simulationsWords(56, states, ['candidates', 'levers'])).toMatch(/^56 simulations: 28 pass/);
});
