/** The pages of `response` and `gains` over file:// in Chromium: curves, modes in the plane, maps. */
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { gains } from '../../src/studies/gains/gains.ts';
import { planGains } from '../../src/studies/gains/plan.ts';
import type { OverFound } from '../../src/studies/response/over/found.ts';
import { layPoints } from '../../src/studies/response/points.ts';
import { responseReport } from '../../src/studies/response/report.ts';
import { type ResponseCurve, respond } from '../../src/studies/response/respond.ts';
import { contextHere } from '../studies/here.ts';
import { studyPages } from './study-pages.ts';

const file = new URL('../../scenarios/single-step.yaml', import.meta.url).pathname;
const load_W = 200e3;
const read = readScenario(file, { files: readTextFile });

const opened = studyPages();

/** A search that found one margin, and one point that does not settle. */
function worstOf({ name, frequency_Hz, gain_dB }: ResponseCurve): OverFound {
  const gain = { of: 'voltage loops', what: 'gain_margin_dB', nominal: 9, value: 2.5 } as const;
  const without = (['phase_margin_deg', 'delay_margin_s', 'clearance_ratio', 'disk_ratio'] as const).map(
    (what) => ({ of: 'voltage loops', what, nominal: null, value: null, unstable: false, point: null }),
  );
  const where = { load_W: 240e3, parts: 'new, usual temperature', drawn: 'as stated' };
  const calm = { growing: null, slow: null, fast: null, values: [] };
  return {
    loads_W: [240e3],
    states: [[], ['ac-loss all']],
    not_asked: [],
    parts: ['new, usual temperature'],
    tolerances: null,
    worst: [{ ...gain, unstable: false, point: 'P1' }, ...without],
    points: [
      {
        ...{ name: 'P1', words: '240 kW, ac-loss all', ...where },
        ...{ state: ['ac-loss all'], changes: [], clamped: [] },
        command: "buswake response single-step --state 'ac-loss all'",
      },
    ],
    slopes: [],
    asked: [{ ...where, ...calm, state: 'ac-loss all', reason: 'no point' }],
    bands: [
      {
        curve: name,
        frequency_Hz,
        low_dB: gain_dB.map((gain_of) => (gain_of === null ? null : gain_of - 3)),
        high_dB: gain_dB,
      },
    ],
  };
}

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
      over: worstOf(response.curves[0]!),
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
    expect(await page.locator('path.worst-band').count()).toBe(1);
    const worst = (await page.getByRole('region', { name: 'Worst margins' }).textContent())!.replaceAll(
      '\u00A0',
      ' ',
    );
    expect(worst).toContain('2.50 dB (9.00)');
    expect(worst).toContain('ac-loss all at 240 kW: no point');
    expect(
      await page.getByText("buswake response single-step --state 'ac-loss all'").textContent(),
    ).not.toMatch(/\u00A0/);
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
        over: null,
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
