/**
 * What a change costs in the page of a kept run: `buswake run pulse-train --set duration="5 s" --out out/five`, then
 * `node --import tsx scripts/what-if-time.ts out/five`. Prints of a few runs in the worker, and of the same in Node, the time
 * on the clock and the time that processors worked, which other work on the machine does not lengthen as much; then what the
 * engine adds to the page.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { unpackInput } from '../src/bundle/pack-input.ts';
import { readBundle, readBundleFiles } from '../src/bundle/read.ts';
import { makePage } from '../src/cli/pages/page.ts';
import { shippedLimitsText } from '../src/shipped/shipped-limits.ts';
import { launch } from '../tests/browser/browser.ts';
import { KeptRun } from '../web/engine/worker/kept-run.ts';

const [dir] = process.argv.slice(2);
if (dir === undefined) {
  process.stderr.write('usage: what-if-time.ts DIR\n');
  process.exit(2);
}
const change = { path: 'trays.count', value: '9' };
const runs = 4;
const choosing_ms = 3000;

function tell(what: string, clock_s: number, worked_s: number): void {
  console.log(`${what.padEnd(12)} ${clock_s.toFixed(2)} s, processors ${worked_s.toFixed(2)} s`);
}

function inNode(folder: string): void {
  const { request, inputs } = readBundle(folder).provenance;
  const kept = new KeptRun({ request, inputs: inputs.map(unpackInput), shippedLimits: shippedLimitsText() });
  for (let k = 1; k <= runs; k += 1) {
    const [start_ms, worked] = [performance.now(), process.cpuUsage()];
    kept.run([change], () => {});
    const { user, system } = process.cpuUsage(worked);
    tell(`Node, ${k}`, (performance.now() - start_ms) / 1000, (user + system) / 1e6);
  }
}

/** Time that all processes of the browser have worked [s]. */
async function workedBy(browser: Browser): Promise<number> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  return processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}

async function inPage(file: string): Promise<void> {
  const browser = await launch();
  try {
    const page = await browser.newPage();
    await page.goto(`file://${file}`);
    await page.locator('#what-if-start').click();
    await page.locator(`[id="what-if-${change.path}"]`).fill(change.value);
    // As long as it takes to choose a change: the worker rehearses meanwhile.
    await page.waitForTimeout(choosing_ms);
    for (let k = 1; k <= runs; k += 1) {
      const before_s = await workedBy(browser);
      await page.locator('#what-if-run').click();
      await page.locator('progress:not([hidden])').waitFor();
      await page.locator('progress').waitFor({ state: 'hidden' });
      const said = (await page.locator('.said .note').first().textContent()) ?? '';
      const [, number = 'NaN', unit] = /Run in ([\d.]+) (m?s)/.exec(said) ?? [];
      tell(`worker, ${k}`, Number(number) * (unit === 'ms' ? 1e-3 : 1), (await workedBy(browser)) - before_s);
    }
  } finally {
    await browser.close();
  }
}

const root = mkdtempSync(join(tmpdir(), 'what-if-time-'));
try {
  inNode(dir);
  const text = makePage(readBundleFiles(dir));
  const file = join(root, 'page.html');
  writeFileSync(file, text);
  await inPage(file);
  const [engine = ''] = /<script[^>]*id="file-engine\.js"[^>]*>[^<]*/.exec(text) ?? [];
  console.log(
    `page ${(text.length / 1e6).toFixed(2)} MB, of it the engine ${(engine.length / 1e6).toFixed(2)} MB`,
  );
} finally {
  rmSync(root, { recursive: true });
}
