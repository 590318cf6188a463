/** The page of a run over file:// in Chromium, opened as often as a file of tests needs it, with what it complains of. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import type { Bundle } from '../../src/bundle/format.ts';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { launch } from './browser.ts';

export interface RunPage {
  readonly page: Page;
  /** Console errors and warnings, exceptions. */
  readonly complaints: string[];
  /** Addresses asked for, the page's own file apart. */
  readonly requests: string[];
}

/** A way to open the page of a run; browser and file live as long as the tests of the file. */
export function runPage(
  bundle: () => Bundle,
): (options: BrowserContextOptions, hash?: string) => Promise<RunPage> {
  let browser: Browser;
  let root: string;
  let file: string;

  beforeAll(async () => {
    browser = await launch();
    root = mkdtempSync(join(tmpdir(), 'page-'));
    writeBundle(join(root, 'run'), bundle(), { force: false });
    file = join(root, 'page.html');
    writeFileSync(file, makePage(readBundleFiles(join(root, 'run'))));
  });

  afterAll(async () => {
    await browser?.close();
    if (root !== undefined) rmSync(root, { recursive: true });
  });

  return async (options, hash = '') => {
    const page = await browser.newPage(options);
    const [complaints, requests]: [string[], string[]] = [[], []];
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('request', (request) => {
      if (!/^(file|data|blob):/.test(request.url())) requests.push(request.url());
    });
    await page.goto(`${pathToFileURL(file).href}${hash}`);
    await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
    await settle(page);
    return { page, complaints, requests };
  };
}

/** Two frames: one in which changes are gathered, one in which they are drawn. */
export async function settle(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** Takes an open page to a stretch and moment by its address, as its reader would: the whole run where none is given. */
export async function goTo(page: Page, hash: string): Promise<void> {
  // Twice the same address would be no change.
  await page.evaluate((to) => {
    location.hash = '#=';
    location.hash = to;
  }, hash);
  await settle(page);
  await page.mouse.move(0, 0);
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    scrollTo(0, 0);
  });
  await settle(page);
}
