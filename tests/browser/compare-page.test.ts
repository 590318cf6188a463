/** The page of two runs over file:// in Chromium: both wakes over and beside each other, at both widths, in both themes. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { makeComparePage } from '../../src/cli/pages/compare-page.ts';
import { compare } from '../../src/studies/compare/compare.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { seriousOn } from './axe.ts';
import { launch } from './browser.ts';

let browser: Browser;
let root: string;
let file: string;
const complaints: string[] = [];

beforeAll(async () => {
  browser = await launch();
  root = mkdtempSync(join(tmpdir(), 'compare-page-'));
  file = join(root, 'compare.html');
  const before = syntheticRun(6);
  const longer = syntheticRun(9);
  const { scenario, report } = longer;
  const kept = report.findings.findIndex(({ verdict }) => verdict === 'pass');
  const after = {
    ...longer,
    scenario: { ...scenario, duration_s: 9 },
    report: {
      ...report,
      verdict: 'fail' as const,
      summary: 'Fails: </script><b>the bus</b> stays low.',
      findings: report.findings.map((finding, k) =>
        k === kept ? { ...finding, verdict: 'fail' as const, headroom_ratio: -0.1 } : finding,
      ),
      metrics: { ...report.metrics, bus_min_V: 44.25 },
    },
  };
  writeFileSync(file, makeComparePage(compare(before, after), before, after));
});

afterAll(async () => {
  await browser?.close();
  if (root !== undefined) rmSync(root, { recursive: true });
});

async function open(options: BrowserContextOptions, hash = ''): Promise<Page> {
  const page = await browser.newPage(options);
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('request', (request) => request.url().startsWith('file:') || complaints.push(request.url()));
  await page.goto(`${pathToFileURL(file).href}${hash}`);
  await page.waitForSelector('html[data-ready="true"]', { timeout: 20_000 });
  expect(complaints).toEqual([]);
  return page;
}

/** Canvases in sight that hold nothing. */
function blank(page: Page): Promise<number> {
  return page.evaluate(async () => {
    await new Promise((done) => setTimeout(done, 100));
    const canvases = [...document.querySelectorAll<HTMLCanvasElement>('#wakes canvas')];
    const shown = canvases.filter((canvas) => canvas.clientWidth > 0);
    const empty = shown.filter((canvas) => {
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      return data.every((value) => value === 0);
    });
    return shown.length === 0 ? Number.NaN : empty.length;
  });
}

it('says what turned, and lays the wakes over each other or beside, as the switch and the address say', async () => {
  const page = await open({ viewport: { width: 1440, height: 2400 } });
  expect(await page.locator('.turn').textContent()).toMatch(/ → fail$/);
  expect(await page.locator('#answer').textContent()).toContain('</script><b>the bus</b>');
  expect(await page.locator('#tables').textContent()).toContain('Limits that turned');
  expect(await page.locator('#tables').textContent()).toContain('44.25');
  expect(await page.locator('#inputs').textContent()).toMatch(/duration: .* → 9 s/);
  expect(await page.locator('.overlay .panel').count()).toBe(3);
  expect(await page.locator('.beside').isVisible()).toBe(false);
  expect(await blank(page)).toBe(0);
  await page.getByRole('button', { name: 'beside' }).click();
  expect(await page.locator('div.overlay').isVisible()).toBe(false);
  expect(await page.locator('.beside .panel').count()).toBe(6);
  expect(await blank(page)).toBe(0);
  // Both columns have the same values on their axes.
  const axes = await page.locator('.beside .panel svg.axis').allTextContents();
  expect(axes[0]).not.toBe('');
  expect(axes[0]).toBe(axes[1]);
  await expect.poll(() => page.url()).toContain('wakes=beside');
  expect(await page.locator('#wakes .note').textContent()).toMatch(
    /^Other spans of time: before .* From 0 s to 6 s/,
  );
  // As every plot of a run's page, each can be kept.
  expect(await page.locator('#wakes .panel .take').count()).toBe(9);
  await page.locator('#panel-beside-bus-before .take summary').click();
  const saved = page.waitForEvent('download');
  await page.locator('#panel-beside-bus-before').getByText('Numbers (CSV)').click();
  expect((await saved).suggestedFilename()).toMatch(/-against-.*-beside-bus-before\.csv$/);
  await page.close();
});

for (const [width, height] of [
  [1440, 900],
  [390, 844],
] as const) {
  for (const colorScheme of ['light', 'dark'] as const) {
    it(`has nothing serious at ${width} px in ${colorScheme}`, async () => {
      const page = await open({ viewport: { width, height }, colorScheme }, '#wakes=beside');
      expect(await seriousOn(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      await page.close();
    });
  }
}
