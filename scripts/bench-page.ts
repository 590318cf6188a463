/**
 * What the page of a run costs in headless Chromium: `bench-page.ts [--points N]`. Twenty channels of N points (a million
 * where it is not said); first picture, then script a frame and forced layouts while zooming and panning at 1440 by 900.
 */
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { readBundleFiles } from '../src/bundle/read.ts';
import { writeBundle } from '../src/bundle/write.ts';
import { makePage } from '../src/cli/pages/page.ts';
import { launch } from '../tests/browser/browser.ts';
import { largeRun } from './bench-page/large-run.ts';
import { categories, usedIn } from './bench-page/trace.ts';

const { values } = parseArgs({ options: { points: { type: 'string', default: '1000000' } } });
const points_count = Number(values.points);
const frames_count = 60;
/** Between two inputs: each has a frame of its own. */
const pause_ms = 20;

const browser = await launch();
const root = mkdtempSync(join(tmpdir(), 'bench-page-'));
try {
  writeBundle(join(root, 'run'), largeRun(points_count), { force: false });
  const file = join(root, 'page.html');
  writeFileSync(file, makePage(readBundleFiles(join(root, 'run'))));
  say('page', `20 channels of ${points_count} points, ${(statSync(file).size / 1e6).toFixed(1)} MB`);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector('html[data-ready="true"]', { timeout: 300_000 });
  say('first picture', `${(await firstPicture(page)).toFixed(2)} s after the page was asked for`);
  const box = (await page.locator('#panel-bus .plot').boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await measured(page, 'zooming', 'Control', (k) => page.mouse.wheel(0, k % 2 === 0 ? -120 : 100));
  await page.keyboard.press('0');
  await page.keyboard.press('+');
  await measured(page, 'panning', 'Shift', (k) => page.mouse.wheel(k < frames_count / 2 ? 12 : -12, 0));
  // Held at the moment that binds, the cursor would not follow.
  await page.keyboard.press('Escape');
  await measured(page, 'pointing', null, (k) => page.mouse.move(box.x + 300 + 5 * k, box.y + 40));
} finally {
  await browser.close();
  rmSync(root, { recursive: true });
}

/** When the panels had been drawn: the frame after the one in which the page said it was ready. */
function firstPicture(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done) =>
        requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() / 1000))),
      ),
  );
}

async function measured(
  page: Page,
  what: string,
  key: string | null,
  act: (k: number) => Promise<void>,
): Promise<void> {
  if (key !== null) await page.keyboard.down(key);
  await browser.startTracing(page, { categories: [...categories] });
  for (let k = 0; k < frames_count; k += 1) {
    await act(k);
    await page.waitForTimeout(pause_ms);
  }
  const used = usedIn(await browser.stopTracing());
  if (key !== null) await page.keyboard.up(key);
  const ms = (s: number): string => `${(1e3 * s).toFixed(1)} ms`;
  say(
    what,
    `script ${ms(used.mean_s)} a frame, at most ${ms(used.worst_s)}, over ${used.frames_count} frames; ${used.forced_layouts_count} forced layouts`,
  );
}

function say(what: string, words: string): void {
  process.stdout.write(`${what.padEnd(14)} ${words}\n`);
}
