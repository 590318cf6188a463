/** The page of a fit over file:// in Chromium: values, profiles and what is left, drawn whole; and the run with the values found. */
import { describe, expect, it } from 'vitest';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import type { AskedMeasurement } from '../../src/request/run-request.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { fit } from '../../src/studies/fit/fit-study.ts';
import { planFit } from '../../src/studies/fit/plan.ts';
import { contextHere } from '../studies/here.ts';
import { studyPages } from './study-pages.ts';

const opened = studyPages();

const measured: AskedMeasurement = {
  ...{ file: 'scenarios/measured/bench-step.csv', time: null, dates: null, decimal: null },
  ...{ map: [], at_s: 0.01, near_s: null, sentinel: [], sensors: [] },
};

describe('the page of a fit', () => {
  it('shows each value with its profile and each channel over the model, and runs the scenario with them', async () => {
    const source = new DiskSource({ keeps: true });
    const shelf = new Shelf(source);
    const plan = planFit(
      {
        scenario: 'scenarios/bench-step.yaml',
        changes: [],
        adjust: ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'banks.capacitance = 40 mF to 160 mF'],
        measured,
      },
      (of) => shelf.read(of),
      (asked, scenario) => shelf.measurement(asked, scenario),
    );
    const report = await fit.carryOut(plan, contextHere().run);
    const page = await opened(report, 'light', source.kept());
    expect(await page.locator('#answer h2').textContent()).toBe('values bounded');
    // Two channels, each with what was measured; two profiles, each with the points that were run.
    expect(await page.locator('circle.measured').count()).toBe(
      report.channels.reduce((sum, { laid }) => sum + laid.time_s.length, 0),
    );
    const points = Object.values(report.result).flatMap(({ profile }) => profile);
    expect(points.length).toBeGreaterThanOrEqual(6);
    expect(await page.locator('.dot').count()).toBe(points.length);
    const text = await page.locator('#parts').textContent();
    for (const words of ['A.S1 voltage', 'S1 current', 'banks capacitance', 'Correlation'])
      expect(text).toContain(words);
    await page.locator('.run-here').click();
    await page.locator('#trial .word h4').waitFor({ timeout: 120_000 });
    expect(await page.locator('#trial canvas').count()).toBeGreaterThan(2);
  });
});
