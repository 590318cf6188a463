/**
 * Trials of a study, run in its page over file:// in Chromium: to the bit what the study's own thread gives, with progress, cancel
 * and the verdict of the study.
 */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { unpackInput } from '../../src/bundle/pack-input.ts';
import { runWhole } from '../../src/studies/bench/run-whole.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { planMatrix } from '../../src/studies/matrix/plan.ts';
import { type MatrixReport, matrixReport } from '../../src/studies/matrix/report.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { spreadReport } from '../../src/studies/spread/report.ts';
import { sampleTrial } from '../../src/studies/spread/sample-trial.ts';
import { letterOf } from '../../src/studies/trials/states.ts';
import type { Trial } from '../../src/studies/trials/trial.ts';
import { changes, contextHere, studyOf } from '../studies/here.ts';
import { seriousOn } from './axe.ts';
import { digest } from './digest.ts';
import { answers } from './page-worker.ts';
import { studyPages } from './study-pages.ts';

const opened = studyPages();

const source = new DiskSource({ keeps: true });
const shelf = new Shelf(source);

/** Short, and late enough in it a fault: most limits are inconclusive, which is all the same here. */
const matrix = studyOf('matrix', 'single-step', {
  changes: changes('duration = 0.25 s', 'load.at = 20 ms'),
  faults: [{ name: 'tray out', changes: changes('events.add = tray-out T4 at 60 ms', 'outage = yes') }],
  corners: [{ name: 'aged', changes: changes('ageing.trays = end-of-life') }],
});

const spread = studyOf('spread', 'single-step', {
  changes: changes('duration = 0.25 s', 'load.at = 20 ms'),
  tolerances: [['trays.esr', 'normal by 10 %']],
  words: { samples: '2' },
});

const recorded: Trial<'run'> = {
  kind: 'run',
  scenario: 'scenarios/recorded-training.yaml',
  changes: changes('duration = 0.3 s', 'warm_up = 0 s'),
};

let page: Page;
const plan = planMatrix(matrix, (of) => shelf.read(of));

beforeAll(async () => {
  const { run } = contextHere();
  const report = matrixReport(plan, await run(plan.trials));
  const [, last] = report.cells;
  // A cell that runs long enough to be cancelled, and that the study says came out otherwise.
  const { trial } = last!;
  const long = { ...trial, changes: [...trial.changes, ...changes('duration = 60 s')] };
  const cells = [
    { ...report.cells[0]!, letter: 'E' as const },
    { ...last!, trial: long },
  ];
  const altered: MatrixReport = { ...report, cells };
  page = await opened(altered, 'light', source.kept());
}, 60_000);

describe('a trial in the page', () => {
  it('is to the bit what the study ran: a fault on aged trays, drawn values, a recording', async () => {
    const sampled = planSpread(spread, (of) => shelf.read(of));
    const { run } = contextHere();
    const report = spreadReport(sampled, await run(sampled.trials));
    const trials = [plan.trials[1]!, sampleTrial(report, 2), recorded];
    const told = trials.map((trial) => {
      const done = runWhole(shelf, trial);
      return { whole: digest(done), result: digest(done.ran?.result) };
    });
    for (const { result } of told) expect(result.numbers).toBeGreaterThan(10_000);
    const inputs = source.kept().map(unpackInput);
    const orders = trials.map((ask) => ({ kind: 'trial', ask }) as const);
    const found = await answers(page, { kind: 'study', ask: { inputs } }, orders);
    expect(found).toEqual(told);
  });

  it('shows its verdict and the traces of a run below the map, and says where the study had another', async () => {
    await page.locator('.cell').first().click();
    await page.locator('.run-here').click();
    await page.locator('#trial .word h4').waitFor({ timeout: 120_000 });
    const { outcome } = runWhole(shelf, plan.trials[0]!);
    const word = outcome.verdict.replaceAll('_', ' ');
    expect((await page.locator('#trial .word h4').textContent())?.toLowerCase()).toBe(word);
    expect(await page.locator('#trial .panel h3').allTextContents()).toEqual([
      'Bus voltage',
      'Who carries the load',
      'AC input',
    ]);
    expect(letterOf(outcome)).not.toBe('E');
    expect(await page.locator('#trial .warned').textContent()).toMatch(
      /^In the study: numerical failure, no verdict\. Here: /,
    );
    expect(await seriousOn(page)).toEqual([]);
  });

  it('is cancelled, and another can be run after it', async () => {
    await page.locator('.cell').last().click();
    await page.locator('.run-here').click();
    await page.locator('#trial progress[value]').waitFor();
    await page.locator('#trial .run button').click();
    await page.locator('#trial .said', { hasText: 'Cancelled.' }).waitFor();
    expect(await page.locator('#trial .word').count()).toBe(0);
    await page.locator('.cell').first().click();
    await page.locator('.run-here').click();
    await page.locator('#trial .word h4').waitFor({ timeout: 120_000 });
    expect(await page.locator('#trial').count()).toBe(1);
  });
});
