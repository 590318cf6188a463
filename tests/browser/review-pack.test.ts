/** The review pack: what a page prints, from a narrow dark screen as from any other; a synthetic run, and one that was simulated. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Statement } from '../../src/analysis/statement/line.ts';
import { stated } from '../../src/analysis/statement/state.ts';
import { thisBuild } from '../../src/bundle/build.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { prepare } from '../../src/request/prepare.ts';
import type { RunRequest } from '../../src/request/run-request.ts';
import { run } from '../../src/run.ts';
import { shippedLimitsText } from '../../src/shipped/shipped-limits.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { runPage, settle } from './run-page.ts';

/** A single step, as short as it can be judged at all. */
function simulated(): Bundle {
  const changes = ['duration=0.2 s', 'load.at=20 ms'].map((word) => {
    const [path, value] = word.split('=') as [string, string];
    return { path, value, option: '--set' };
  });
  const request: RunRequest = {
    ...{ scenario: 'scenarios/single-step.yaml', load: null, waivers: [], measured: null, doubt: false },
    ...{ changes, judged_on: '2030-01-01', asked_on: '2030-01-01' },
  };
  const source = new DiskSource({ keeps: true });
  const { scenario, recorded } = prepare(request, source, { shippedLimits: shippedLimitsText() });
  const { report, result } = run(scenario, recorded);
  return {
    report: { ...report, statement: stated(asked, report) },
    ...{ result, scenario, provenance: { request, inputs: source.kept(), build: thisBuild() } },
  };
}

/** A statement on one requirement, as a run has it that was judged by a specification. */
const asked: Statement = {
  ...{ file: 'spec.csv', title: 'Made up', runs: ['single-step'], carries: false, conditions: [] },
  lines: [
    {
      requirement: {
        ...{ clause: '7.3', words: 'Audible noise', metric: '', bound: '<= 70 dB', applies: 'normal' },
        ...{ source: 'B-2', file: 'spec.csv', line: 2, judged: null, shown_by: 'a test in a hall' },
        ...{ SI_per_unit: null, altered: null },
      },
      ...{ state: 'open', worst: null, shown: [], not_shown: [], conditions: [], because: null },
    },
  ],
};

const runs = { synthetic: syntheticRun(10), simulated: simulated() };
const reader = spawnSync('pdftotext', ['-v']).error === undefined;

describe.each(['synthetic', 'simulated'] as const)('the pack of a %s run', (kind) => {
  const { report } = runs[kind];
  const open = runPage(() => runs[kind]);
  let page: Page;
  let pdf: Buffer;

  beforeAll(async () => {
    ({ page } = await open({ viewport: { width: 390, height: 844 }, colorScheme: 'dark' }));
    pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
  });

  afterAll(() => page?.close());

  it('is a few pages and leaves nothing behind on the page', async () => {
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
    expect(pages.length).toBeGreaterThan(2);
    expect(pages.length).toBeLessThanOrEqual(8);
    await page.waitForFunction(() => document.getElementById('review-pack') === null);
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('auto');
  });

  it('says verdict, day, basis, all that is not passed with its reason, inputs with whole sums, cautions, a place to sign', async () => {
    await page.setViewportSize({ width: 680, height: 960 });
    await page.emulateMedia({ media: 'print' });
    await settle(page);
    const text = ((await page.locator('#review-pack').textContent()) ?? '').replace(/\s+/g, ' ');
    const { findings, basis, inputs } = report;
    const open = findings.filter(({ verdict }) => verdict !== 'pass' && verdict !== 'not_applicable');
    const files = inputs.flatMap((input) =>
      'change' in input ? [input.change.path] : [input.path, input.sha256],
    );
    for (const words of [
      ...[report.scenario.title, report.summary, report.judged_on ?? '', report.outcome.kind],
      ...basis.flatMap(({ what }) => what),
      ...open.flatMap(({ title, source, reason }) => [title, source, reason ?? '']),
      ...files,
      ...['It is not a safety certification.', 'never take protective-device ratings'],
      ...['Name', 'Date', 'Signature'],
    ])
      expect(text).toContain(words.replace(/\s+/g, ' '));
    expect(open.length).toBeGreaterThan(0);
    // Where the run was judged by a specification, line by line.
    const line = '7.3Audible noiseopen<= 70 dBa test in a hall (B-2)';
    expect(text.includes('Statement on the specification')).toBe(kind === 'simulated');
    expect(text.includes(line)).toBe(kind === 'simulated');
  });

  it('shows the pack alone: light, nothing to press, nothing cut', async () => {
    const found = await page.evaluate(() => {
      const pack = document.getElementById('review-pack')!;
      // Strokes within drawings are clipped to their plots; words are not.
      const solid = [...pack.querySelectorAll(':not(svg *)'), ...pack.querySelectorAll('svg text')];
      const beyond = solid.filter((element) => {
        const { left, right } = element.getBoundingClientRect();
        return left < -1 || right > innerWidth + 1;
      });
      return {
        shown: [...document.body.children]
          .filter((one) => getComputedStyle(one).display !== 'none')
          .map(({ id }) => id),
        controls: pack.querySelectorAll('button, select, input, a, summary, canvas').length,
        ink: getComputedStyle(pack).color,
        beyond: beyond.map((element) => element.outerHTML.slice(0, 80)),
      };
    });
    expect(found).toEqual({ shown: ['review-pack'], controls: 0, ink: 'rgb(28, 35, 38)', beyond: [] });
  });

  it('draws every plot at full width and every bar and unit of the cabinet', async () => {
    const titles = await page.locator('#review-pack figure svg > title').allTextContents();
    for (const title of [
      'Bus voltage',
      'Who carries the load',
      'AC input',
      'AC spectrum',
      'Bus voltage against',
    ])
      expect(
        titles.some((one) => one.startsWith(title)),
        title,
      ).toBe(true);
    for (const box of await page.locator('#review-pack figure svg').all())
      expect((await box.boundingBox())!.width).toBeGreaterThan(670);
    const { bars, sleds, sections } = runs[kind].scenario;
    const drawn = (kind: string): Promise<number> => page.locator(`#review-pack .stage .${kind}`).count();
    const units = sections.reduce((sum, { order }) => sum + order.length, 0);
    expect(await drawn('unit')).toBe(units + sleds.length);
    const along = sections.reduce((sum, { order }) => sum + order.length - 1, 0);
    expect(await drawn('bar')).toBe(
      along + sleds.length - 1 + bars.links.length + (bars.tie === null ? 0 : 1),
    );
  });

  it.skipIf(!reader)('can be searched: a reader of PDF finds its words', () => {
    const root = mkdtempSync(join(tmpdir(), 'pack-'));
    const file = join(root, 'pack.pdf');
    writeFileSync(file, pdf);
    const { stdout } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    rmSync(root, { recursive: true });
    const sum = report.inputs.flatMap((input) => ('change' in input ? [] : [input.sha256]))[0]!;
    for (const words of [
      'Buswake review pack',
      report.scenario.title,
      sum,
      'Signature',
      'Bus voltage, values at',
    ])
      expect(stdout).toContain(words);
  });
});
