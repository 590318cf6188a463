/** Pages of studies over file:// in Chromium: each must draw whole, without complaint, asking the network for nothing. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { makeStudyPage } from '../../src/cli/pages/study-page.ts';
import { launch } from './browser.ts';

/** Opens the page of a report, with a browser that lives as long as the tests of the file; SHOTS names a folder for pictures. */
export function studyPages(): (
  report: { readonly kind: string },
  colorScheme: 'light' | 'dark',
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

  return async (report, colorScheme) => {
    const dir = join(root, report.kind);
    mkdirSync(dir);
    writeFileSync(join(dir, 'study.json'), JSON.stringify(report));
    writeFileSync(join(dir, 'page.html'), await makeStudyPage(dir));
    const page = await browser.newPage({ viewport: { width: 1100, height: 800 }, colorScheme });
    const complaints: string[] = [];
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
    page.on('request', (request) => request.url().startsWith('file:') || complaints.push(request.url()));
    await page.goto(pathToFileURL(join(dir, 'page.html')).href);
    await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
    expect(complaints).toEqual([]);
    const shots = process.env['SHOTS'];
    if (shots !== undefined)
      await page.screenshot({ path: join(shots, `${report.kind}.png`), fullPage: true });
    return page;
  };
}
