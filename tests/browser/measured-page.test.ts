/** What the page says of a measurement before the comparison is trusted. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import type { MeasuredReport } from '../../src/analysis/judge/report.ts';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { launch } from './browser.ts';

const measured: MeasuredReport = {
  file: 'bench.csv',
  sha256: 'a3'.repeat(32),
  at_s: 2,
  aligned: 'found',
  by: 'S1.current_A',
  correlation_ratio: 0.99,
  confidence_ratio: 1,
  at_error_s: 1e-4,
  at_interval_s: [1.9998, 2.0002],
  as_well_at_s: [],
  clock_rate_ratio: null,
  clock_rate_error_ratio: null,
  warnings: ['What is left of S1.current_A <b>is not noise</b>.', 'It agrees as well at 4 s.'],
  channels: [
    {
      channel: 'S1.current_A',
      column: 'i_1',
      unit: 'A',
      samples: 3,
      rate_Hz: 1,
      bias: 1,
      bias_interval: [0.9, 1.1],
      gain_ratio: 1,
      gain_interval: [0.99, 1.01],
      rms: 2,
      peak: 3,
      peak_s: 4,
      swing: 100,
      sensor: 'rogowski',
      allowed_bias: 5,
      correlation_ratio: 0.99,
      bands: [],
      trace: { time_s: [3, 4, 5], low: [300, 301, 302], high: [303, 304, 305], simulated: [301, 302, 303] },
    },
  ],
  remarks: [],
};

it('shows every warning as text, and names the sensor that the comparison is made through', async () => {
  const root = mkdtempSync(join(tmpdir(), 'measured-page-'));
  const browser = await launch();
  try {
    const bundle = syntheticRun(30);
    writeBundle(join(root, 'run'), { ...bundle, report: { ...bundle.report, measured } }, { force: false });
    const file = join(root, 'page.html');
    writeFileSync(file, makePage(readBundleFiles(join(root, 'run'))));
    const page = await browser.newPage();
    await page.goto(pathToFileURL(file).href);
    await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
    expect(await page.locator('.measured-warnings li').allTextContents()).toEqual(measured.warnings);
    expect(await page.locator('body').textContent()).toContain('over the model as a rogowski shows it');
  } finally {
    await browser.close();
    rmSync(root, { recursive: true });
  }
});
