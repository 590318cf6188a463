/** The pages of studies over file:// in Chromium: drawn whole, without complaint, asking the network for nothing. */
import { describe, expect, it } from 'vitest';
import { duty } from '../../src/studies/duty/duty.ts';
import { planDuty } from '../../src/studies/duty/plan.ts';
import { planMatrix } from '../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../src/studies/matrix/report.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { spreadReport } from '../../src/studies/spread/report.ts';
import { changes, contextHere, designed, rated, sized, studyOf } from '../studies/here.ts';
import { studyPages } from './study-pages.ts';

const opened = studyPages();

const short = changes('duration = 0.3 s');

describe('the page of a study', () => {
  it('maps a sizing, and a chosen cell shows the command that repeats it', async () => {
    const study = studyOf('size', 'single-step', {
      changes: short,
      vary: [['trays.power_limit', '6 kW | 20 kW']],
    });
    const page = await opened(await sized(study, contextHere()), 'light');
    expect(await page.locator('.cell').count()).toBe(2);
    await page.locator('.cell').first().focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('.detail code').textContent()).toBe(
      "buswake run scenarios/single-step.yaml --set 'duration=0.3 s' --set 'trays.power_limit=6 kW'",
    );
  });

  it('draws designs as points over two objectives, and a chosen one shows the command that repeats it', async () => {
    const study = studyOf('designs', 'bench-step', {
      changes: changes('duration = 0.61 s', 'load.at = 0.1 s'),
      vary: [
        ['trays.power_limit', '8 kW | 20 kW'],
        ['banks.capacitance', '20 mF | 80 mF'],
      ],
      words: { objectives: 'losses, headroom' },
    });
    const report = await designed(study, contextHere());
    const page = await opened(report, 'light');
    const on = report.designs.filter(({ standing }) => standing === 'front').length;
    expect(on).toBeGreaterThan(0);
    expect(await page.locator('.framed .dot.front').count()).toBe(on);
    expect(await page.locator('.framed .cross').count()).toBe(2);
    await page.locator('.framed').focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    expect(await page.locator('.reading').textContent()).toMatch(
      /^8 kW, 20 mF: losses in a year \d+ kWh, .*; fails/,
    );
    expect(await page.locator('.detail code').textContent()).toContain("--set 'banks.capacitance=20 mF'");
    expect(await page.locator('h3').allTextContents()).toContain('The front');
  });

  it('maps a matrix by letter', async () => {
    const study = studyOf('matrix', 'single-step', {
      // The step at 0.1 s and the half second that its consequences need.
      changes: changes('duration = 0.62 s'),
      corners: [
        { name: 'new', changes: [] },
        { name: 'aged', changes: changes('ageing.trays = end-of-life') },
      ],
    });
    const { read, run } = contextHere();
    const plan = planMatrix(study, read);
    const page = await opened(matrixReport(plan, await run(plan.trials)), 'dark');
    expect(await page.locator('.cell b').first().textContent()).toMatch(/^[✓✕] [PCFXN]( −?\d|$)/);
    expect(await page.locator('.map thead th').allTextContents()).toEqual(['fault', 'new', 'aged']);
    // The detail of a cell opens below its row, not below a table of many rows.
    await page.locator('.cell').first().click();
    expect(await page.locator('tbody tr').nth(1).locator('.detail code').textContent()).toMatch(
      /^buswake run /,
    );
  });

  it('draws a spread: a bar for each bin, a tornado with what is drawn', async () => {
    const study = studyOf('spread', 'single-step', {
      changes: short,
      tolerances: [
        ['shelves.set_point_offset', 'uniform from -0.25 % to 0.25 %'],
        ['trays.esr', 'normal by 10 %, common'],
      ],
      words: { samples: '8' },
    });
    const { read, run } = contextHere();
    const plan = planSpread(study, read);
    const page = await opened(spreadReport(plan, await run(plan.trials)), 'light');
    expect(await page.locator('svg.chart').count()).toBe(2);
    expect(await page.locator('svg.chart').last().textContent()).toContain('trays esr');
    // The pointer anywhere over a bar gives its count.
    await page.locator('.framed').first().hover();
    expect(await page.locator('.reading').first().textContent()).toMatch(/ to .*: \d of 8 samples$/);
  });

  it('maps pulsed over steady load', async () => {
    const study = studyOf('rating', 'pulse-train', {
      changes: changes('duration = 1.6 s', 'start = settled'),
      words: { from: '90 %', to: '100 %', within: '5 %', duty: '60 %, 80 %' },
    });
    const page = await opened(await rated(study, contextHere()), 'light');
    expect(await page.locator('.cell').count()).toBe(2);
    expect(await page.locator('.note').first().textContent()).toContain('five sixths');
    // The same as a curve: a dot for each duty, with the steady rating and five sixths as levels.
    expect(await page.locator('.framed .dot').count()).toBe(2);
    expect(await page.locator('.framed svg.chart').textContent()).toContain('common practice, 5/6');
  });

  it('draws the course of a duty: heat, hot spots and charge, with where stretches begin', async () => {
    const study = studyOf('duty', 'bench-step', {
      changes: changes('batteries.add = B1 in A after K1', 'load.before = 12 kW', 'duration = 2 s'),
      stretches: [
        { name: 'day', for: '16 h', changes: [] },
        { name: 'outage', for: '3 min', changes: changes('events.add = ac-loss all at 0.2 s') },
        { name: 'night', for: '7 h', changes: [] },
      ],
      words: { begin: 'cold' },
    });
    const { read, run } = contextHere();
    const page = await opened(await duty.carryOut(planDuty(study, read), run), 'light');
    expect(await page.locator('.framed svg.chart').count()).toBe(3);
    expect(await page.locator('.framed').last().locator('.steady').count()).toBe(2);
    await page.locator('.framed').last().hover();
    expect(await page.locator('.reading').last().textContent()).toMatch(
      /^\d+ h \d\d min, (day|outage|night): battery shelf with the least charge [\d.]+ %$/,
    );
    expect(await page.locator('#sentence').textContent()).toContain('23.1 h');
  });
});
