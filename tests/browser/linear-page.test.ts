/** The pages of `response` and `gains` over file:// in Chromium: curves, modes in the plane, maps. */
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { gains } from '../../src/studies/gains/gains.ts';
import { planGains } from '../../src/studies/gains/plan.ts';
import { layPoints } from '../../src/studies/response/points.ts';
import { responseReport } from '../../src/studies/response/report.ts';
import { respond } from '../../src/studies/response/respond.ts';
import { contextHere } from '../studies/here.ts';
import { studyPages } from './study-pages.ts';

const file = new URL('../../scenarios/single-step.yaml', import.meta.url).pathname;
const load_W = 200e3;
const read = readScenario(file, { files: readTextFile });

const opened = studyPages();

describe('the page of a response', () => {
  it('draws every curve with the points laid over it, and the modes in the plane', async () => {
    const name = 'load to rectifier current';
    const points = [20, 250].map((frequency_Hz, k) => ({
      curve: name,
      line: k + 2,
      frequency_Hz,
      gain_dB: 0,
      phase_deg: 0,
    }));
    const response = respond(read.scenario, { load_W, points: 41, also_Hz: [20, 250] });
    const report = responseReport(read.scenario, response, {
      measured: layPoints('a.csv', points, response.curves, null),
    });
    const page = await opened(report, 'light');
    expect(await page.locator('path.curve').count()).toBe(2 * report.curves.length);
    // A dot for the gain and one for the phase of each point.
    expect(await page.locator('circle.measured').count()).toBe(4);
    const plane = page.getByRole('img', { name: /modes/i }).first();
    expect(await plane.count()).toBe(1);
    expect(await plane.locator('.mode').count()).toBe(report.modes.length);
    expect(await page.locator('.margin').count()).toBeGreaterThanOrEqual(4);
    expect(await plane.textContent()).toContain('0.3');
  });
});

describe('the page of a gains map', () => {
  it('shows a cell for every point of the grid, the chosen one marked', async () => {
    const here = contextHere();
    const plan = planGains(
      {
        scenario: file,
        changes: [],
        x: 'firmware.share.time_constant=50 ms to 200 ms in 3 log',
        y: 'firmware.share.latency=5 ms to 15 ms in 3',
        load_W,
        accept: [],
        samples: 0,
        seed: 1,
        confirm: false,
      },
      here.read,
    );
    const report = await gains.carryOut(plan, here.run);
    const page = await opened(report, 'dark');
    expect(await page.locator('.tile').count()).toBe(9);
    expect(await page.locator('.tile.recommended .best').count()).toBe(1);
    const map = page.locator('.framed').first();
    expect(await map.textContent()).toMatch(/200 ms.*share latency/);
    // The recommended point is told at first; an arrow leads to the next value along the axis, Enter to its run.
    const reading = page.locator('.reading').first();
    expect(await reading.textContent()).toMatch(
      /^share time constant \S+ ms, share latency 5 ms: acceptable/,
    );
    await map.focus();
    await page.keyboard.press('ArrowRight');
    expect(await reading.textContent()).toMatch(/share latency 10 ms/);
    await page.keyboard.press('Enter');
    expect(await page.locator('.detail code').textContent()).toMatch(
      /^buswake run .*single-step.yaml --set 'firmware.share.time_constant=.*' --set 'firmware.share.latency=10 ms'$/,
    );
    expect(await page.locator('.detail button').textContent()).toBe('Copy');
  });
});
