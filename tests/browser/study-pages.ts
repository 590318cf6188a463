/**
 * Pages of studies over file:// in Chromium: each must draw whole, at the width of a phone as well, without complaint,
 * asking the network for nothing, with nothing serious for keyboard and screen reader.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import type { KeptInput } from '../../src/bundle/format.ts';
import { writeStudyInputs } from '../../src/cli/disk/study-inputs.ts';
import { endStudy } from '../../src/cli/disk/study-whole.ts';
import { makeStudyPage } from '../../src/cli/pages/study-page.ts';
import type { StudyHead } from '../../src/studies/head.ts';
import { seriousOn } from './axe.ts';
import { launch } from './browser.ts';

/**
 * Opens the page of a report, with a browser that lives as long as the tests of the file; with `inputs` it can run the trials.
 * SHOTS names a folder for pictures.
 */
export function studyPages(): (
  report: StudyHead,
  colorScheme: 'light' | 'dark',
  inputs?: readonly KeptInput[],
) => Promise<Page> {
  let browser: Browser;
  let root: string;

  beforeAll(async () => {
    browser = await launch();
    root = mkdtempSync(join(tmpdir(), 'study-pages-'));
  });

  afterAll(async () => {
    await browser?.close();
    if (root !== undefined) rmSync(root, { recursive: true });
  });

  return async (report, colorScheme, inputs) => {
    const dir = mkdtempSync(join(root, report.kind));
    if (inputs !== undefined) writeStudyInputs(dir, inputs);
    endStudy(dir, { 'study.json': JSON.stringify(report) });
    writeFileSync(join(dir, 'page.html'), makeStudyPage(dir));
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme });
    const complaints: string[] = [];
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
    page.on('request', (request) => /^(file|blob):/.test(request.url()) || complaints.push(request.url()));
    await page.goto(pathToFileURL(join(dir, 'page.html')).href);
    await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
    expect(complaints).toEqual([]);
    expect(await keysOn(page, report)).toEqual([]);
    expect(await seriousOn(page)).toEqual([]);
    expect(await tooWide(page, 390)).toEqual([]);
    await page.emulateMedia({ colorScheme: colorScheme === 'light' ? 'dark' : 'light' });
    expect(await seriousOn(page, 'colours')).toEqual([]);
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width: 1440, height: 900 });
    const shots = process.env['SHOTS'];
    if (shots !== undefined)
      for (const [width, scheme] of [
        [1440, 'light'],
        [1440, 'dark'],
        [390, 'light'],
        [390, 'dark'],
      ] as const) {
        await page.setViewportSize({ width, height: 900 });
        await page.emulateMedia({ colorScheme: scheme });
        await page.screenshot({ path: join(shots, `${report.kind}-${width}-${scheme}.png`), fullPage: true });
      }
    return page;
  };
}

/** Longest that a page takes to be drawn for another width on a busy machine [ms]. */
const redrawn_ms = 5000;

/** Drawings that do not fill their panel at a width, and the page itself where it is wider than the screen, once it is drawn. */
async function tooWide(page: Page, width: number): Promise<readonly string[]> {
  await page.setViewportSize({ width, height: 844 });
  let wide = await wideAt(page, width);
  for (let waited_ms = 0; wide.length > 0 && waited_ms < redrawn_ms; waited_ms += 50) {
    await page.waitForTimeout(50);
    wide = await wideAt(page, width);
  }
  return wide;
}

function wideAt(page: Page, width: number): Promise<readonly string[]> {
  return page.evaluate((screen) => {
    const wide = document.documentElement.scrollWidth > screen ? ['the page'] : [];
    const charts = [...document.querySelectorAll('.framed > svg')];
    return [
      ...wide,
      ...charts
        .filter((chart) => Math.abs(chart.clientWidth - (chart.parentElement?.clientWidth ?? 0)) > 1)
        .map((chart) => chart.getAttribute('aria-label') ?? ''),
      ...charts
        .filter((chart) => chart.getAttribute('viewBox')?.split(' ')[2] !== String(chart.clientWidth))
        .map((chart) => `${chart.getAttribute('aria-label')} is drawn for another width`),
    ];
  }, width);
}

/** Limits by their ids and parameters by their paths that stand where people read, outside commands and what is kept small for them. */
async function keysOn(page: Page, report: object): Promise<readonly string[]> {
  const ids = Object.keys('limit_titles' in report ? Object(report.limit_titles) : {});
  const text = await page.evaluate(() => {
    const body = document.body.cloneNode(true) as HTMLElement;
    for (const element of body.querySelectorAll('script, style, code, .key')) element.replaceWith(' ');
    return [...body.querySelectorAll('*')]
      .map(({ childNodes }) =>
        [...childNodes]
          .filter(({ nodeType }) => nodeType === 3)
          .map(({ textContent }) => textContent)
          .join(''),
      )
      .join('\n');
  });
  const words = text.match(/(?<![\w./-])[a-z_]+(?:[-.][\w-]+)+(?![\w/])/g) ?? [];
  return words.filter(
    (word) => ids.includes(word) || /^(shelves|trays|banks|bars|sleds|load|firmware)\./.test(word),
  );
}
