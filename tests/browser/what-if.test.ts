/**
 * What if, over file:// in Chromium under the page's own policy: the worker's run is that of Node bit for bit, refusals are in
 * the words of the command line, a run can be cancelled, and what is taken from the page runs the same.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { thisBuild } from '../../src/bundle/build.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { type Prepared, prepare } from '../../src/request/prepare.ts';
import type { RunRequest } from '../../src/request/run-request.ts';
import { type Run, run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { shippedLimitsText } from '../../src/shipped/shipped-limits.ts';
import type { Kept } from '../../web/engine/worker/order.ts';
import { bytesOf, launch } from './browser.ts';
import { digest } from './digest.ts';
import { answers } from './page-worker.ts';

const set = (...words: string[]): Change[] =>
  words.map((word) => ({ path: word.split('=')[0]!, value: word.split('=').slice(1).join('=') }));

const asked = (changes: readonly Change[]) => changes.map((change) => ({ ...change, option: '--set' }));

/** The step at 20 ms of a run that is as short as it can be judged at all. */
const request: RunRequest = {
  ...{ scenario: 'scenarios/single-step.yaml', load: null, waivers: [], measured: null, doubt: false },
  ...{
    changes: asked(set('duration=0.2 s', 'load.at=20 ms')),
    judged_on: '2030-01-01',
    asked_on: '2030-01-01',
  },
};

/** The load half as large again, and a tray out: what the panel is asked for below. */
const larger = set(
  'load.before=150 kW',
  'load.after=360 kW',
  'events.add=tray-out T1 at 60 ms',
  'outage=yes',
);

/** As the command line runs it. */
function freshly(
  changes: readonly Change[],
  source = new DiskSource({ keeps: false }),
): Run & Pick<Prepared, 'scenario'> {
  const wanted = { ...request, changes: [...request.changes, ...asked(changes)] };
  const { scenario, recorded } = prepare(wanted, source, { shippedLimits: shippedLimitsText() });
  return { ...run(scenario, recorded), scenario };
}

/** Runs of this file, each made once. */
const made = new Map<string, ReturnType<typeof freshly>>();

function here(changes: readonly Change[]): ReturnType<typeof freshly> {
  const key = JSON.stringify(changes);
  const ran = made.get(key) ?? freshly(changes);
  made.set(key, ran);
  return ran;
}

let browser: Browser;
let page: Page;
let root: string;
let kept: Kept;
const complaints: string[] = [];

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'what-if-'));
  const source = new DiskSource({ keeps: true });
  const ran = freshly([], source);
  made.set('[]', ran);
  const { report, result, scenario } = ran;
  const inputs = source.kept();
  writeBundle(
    join(root, 'run'),
    { report, result, scenario, provenance: { request, inputs, build: thisBuild() } },
    { force: false },
  );
  kept = {
    request,
    inputs: inputsOf(source),
    shippedLimits: shippedLimitsText(),
  };
  writeFileSync(join(root, 'page.html'), makePage(readBundleFiles(join(root, 'run'))));
  browser = await launch();
  page = await browser.newPage({ viewport: { width: 1200, height: 900 }, acceptDownloads: true });
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (sent) => /^(file|data|blob):/.test(sent.url()) || complaints.push(sent.url()));
  await page.goto(pathToFileURL(join(root, 'page.html')).href);
  await page.waitForSelector('html[data-ready="true"]');
});

afterAll(async () => {
  await browser?.close();
  if (root !== undefined) rmSync(root, { recursive: true });
});

const inputsOf = (source: DiskSource): Kept['inputs'] =>
  source.kept().map(({ path, sha256, content }) => ({ path, sha256, bytes: content }));

describe('the engine in the page', () => {
  it('runs as Node does, to the bit: report, every column of the result, scenario', async () => {
    const trials = [
      set('trays.count=9', 'firmware.share.time_constant=0.3 s', 'firmware.smoothing.latency=1 ms'),
      larger,
    ];
    const told = trials.map((changes) => {
      const { report, result, scenario } = here(changes);
      return { ...digest({ report, result, scenario }), status: 'ok' };
    });
    for (const { numbers } of told) expect(numbers).toBeGreaterThan(50_000);
    const orders = trials.map((ask) => ({ kind: 'run', ask }) as const);
    expect(await answers(page, { kind: 'open', ask: kept }, orders)).toEqual(told);
  });

  it("refuses controllers of the user's own, which run in Node alone", async () => {
    const source = new DiskSource({ keeps: true });
    const theirs = { ...request, scenario: 'scenarios/quiet-share.yaml', changes: [] };
    prepare(theirs, source);
    const ask = { ...kept, request: theirs, inputs: inputsOf(source) };
    const [reply] = await answers(page, { kind: 'open', ask }, []);
    expect(reply).toMatchObject({
      kind: 'problems',
      problems: [{ path: 'controllers', found: "controllers of the user's own" }],
    });
  });

  it('does not take another run for the same', () => {
    const { report, result, scenario } = here([]);
    const [min, ...others] = result.recording.min;
    const moved = Float32Array.from(min!);
    moved[0] = moved[0]! + 1e-5;
    const other = { ...result, recording: { ...result.recording, min: [moved, ...others] } };
    expect(digest({ report, result: other, scenario }).word).not.toBe(
      digest({ report, result, scenario }).word,
    );
  });
});

const field = (path: string) => page.locator(`[id="what-if-${path}"]`);
const runButton = () => page.locator('#what-if-run');
const said = () => page.locator('.said').textContent();

/** What the command line prints of these changes. */
function refusedHere(changes: readonly Change[]): string {
  try {
    here(changes);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('the panel', () => {
  beforeAll(async () => {
    await page.locator('#what-if-start').click();
    await runButton().waitFor();
  });

  it('may compile the kernel under the policy: without that it would run plain, and slowly', async () => {
    const compiles = page
      .workers()
      .at(-1)!
      .evaluate(() => {
        const empty = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0];
        return new WebAssembly.Module(new Uint8Array(empty)) instanceof WebAssembly.Module;
      });
    expect(await compiles).toBe(true);
  });

  it('runs nothing while nothing is changed', async () => {
    expect(await runButton().isDisabled()).toBe(true);
    expect(await field('trays.count').inputValue()).toBe('10');
  });

  it('writes what a slider says, marks it and gives the command', async () => {
    await page.locator('[aria-label="trays.count, slider"]').fill('100');
    expect(await field('trays.count').inputValue()).toBe('8');
    expect(await page.locator('.command .note').textContent()).toContain(
      'in a checkout npm run -s buswake --',
    );
    expect(await page.locator('.command code').textContent()).toBe(
      "buswake run scenarios/single-step.yaml --set 'duration=0.2 s' --set 'load.at=20 ms' --set trays.count=8 --on 2030-01-01",
    );
    expect(await page.locator('.lever.changed').count()).toBe(1);
    // Nothing was run yet that could be of an earlier change.
    expect(await page.locator('.trial > .note').isHidden()).toBe(true);
    await page.locator('.run button', { hasText: 'Reset' }).click();
    expect(await runButton().isDisabled()).toBe(true);
  });

  it('refuses what the command line refuses, in its words', async () => {
    await field('trays.capacitance').fill('-22 mF');
    await field('firmware.share.latency').fill('10 V');
    await runButton().click();
    await page.locator('.refused').waitFor();
    expect(await said()).toBe(refusedHere(set('trays.capacitance=-22 mF', 'firmware.share.latency=10 V')));
    await page.locator('.run button', { hasText: 'Reset' }).click();
    await field('load').fill('10 V');
    await runButton().click();
    expect(await said()).toContain('load\n  found     10 V, which is a voltage\n  expected  a ratio');
    await page.locator('.run button', { hasText: 'Reset' }).click();
    await page.locator('[aria-label="path of a value"]').fill('trays.colour');
    await page.locator('.add button').click();
    await page.locator('.refused').waitFor();
    expect(await said()).toBe(refusedHere(set('trays.colour=red')));
  });

  it('can be cancelled, and runs afterwards', async () => {
    await page.locator('[aria-label="path of a value"]').fill('duration');
    await page.keyboard.press('Enter');
    await field('duration').fill('600 s');
    await runButton().click();
    await page.locator('progress').waitFor();
    await page.locator('.run button', { hasText: 'Cancel' }).click();
    await page.locator('.said', { hasText: 'Cancelled.' }).waitFor();
    // The worker that was ended is replaced by another.
    await page.locator('[aria-label="path of a value"]').fill('outage');
    await page.keyboard.press('Enter');
    await field('outage').waitFor();
    await field('duration').fill('0.2 s');
    expect(await runButton().isDisabled()).toBe(false);
  });

  it('shows what a change made of the verdict, and lays the new wake over the old one', async () => {
    await page.locator('.run button', { hasText: 'Reset' }).click();
    await field('load').fill('150 %');
    await page.locator('#what-if-fault').selectOption('tray-out');
    await runButton().click();
    await page.locator('.turn').waitFor();
    const { report } = here(larger);
    expect(await page.locator('.changed-to > p').nth(1).textContent()).toBe(report.summary);
    expect(await page.locator('.overlay canvas').count()).toBe(3);
    expect(await page.locator('.moved').first().textContent()).toContain('as run');
    await field('trays.count').fill('9');
    expect(await page.locator('.trial > .note').isVisible()).toBe(true);
    await field('trays.count').fill('10');
    expect(await page.locator('.trial > .note').isHidden()).toBe(true);
  });

  it('saves a scenario that runs the same', async () => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('.command button', { hasText: 'Save as a scenario' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('single-step-what-if.yaml');
    const text = (await bytesOf(download)).toString('utf8');
    const file = request.scenario;
    const { scenario } = readScenario(file, {
      files: (path) => ({ text: path === file ? text : readFileSync(path, 'utf8'), sha256: '0' }),
    });
    const { load, events, trays, duration_s, outage } = here(larger).scenario;
    expect(scenario).toMatchObject({ load, events, trays, duration_s, outage });
  });

  it('has done all this without a complaint and without a request', () => {
    expect(complaints).toEqual([]);
  });
});
