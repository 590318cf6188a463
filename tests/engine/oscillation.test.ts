/**
 * Cabinets that the linear model calls unstable and their stable neighbours, told apart by the run; frequencies
 * against the modes of the same equations, differentiated.
 */
import { describe, expect, it } from 'vitest';
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { Hessenberg } from '../../src/linear/hessenberg.ts';
import { linearPlant } from '../../src/linear/plant.ts';
import { restAt } from '../../src/linear/rest.ts';
import { run } from '../../src/run.ts';
import { type Changes, shippedWith } from './runs.ts';

const load_W = 240e3;

function reported(name: string, changes: Changes): Report {
  return run(shippedWith(name, changes), null).report;
}

function findingOf(report: Report, id: string): Finding {
  return report.findings.find((finding) => finding.id === id)!;
}

/** Modes that grow, commands held, and whether there are any. */
function growing(changes: Changes): { real_per_s: number; frequency_Hz: number }[] {
  const plant = linearPlant(restAt(shippedWith('idle', changes), load_W), []);
  return new Hessenberg(plant.A, plant.n)
    .eigenvalues()
    .filter(({ re, im }) => im > 0 && re > 0)
    .map(({ re, im }) => ({ real_per_s: re, frequency_Hz: im / (2 * Math.PI) }));
}

/** Each with a change that makes it stable. */
const cabinets: readonly (readonly [unstable: Changes, stable: Changes])[] = [
  [{ 'shelves.control_delay': '85 us' }, { 'shelves.control_delay': '72 us' }],
  [
    { 'shelves.proportional_gain': '400 A/V', 'shelves.control_delay': '60 us' },
    { 'shelves.proportional_gain': '400 A/V', 'shelves.control_delay': '55 us' },
  ],
  [
    { 'shelves.proportional_gain': '600 A/V', 'shelves.control_delay': '40 us' },
    { 'shelves.proportional_gain': '600 A/V', 'shelves.control_delay': '37 us' },
  ],
  [
    { 'shelves.output_capacitance': '8 mF', 'shelves.control_delay': '40 us' },
    { 'shelves.output_capacitance': '8 mF', 'shelves.control_delay': '36 us' },
  ],
  [
    { 'shelves.output_esr': '0.3 mohm', 'shelves.control_delay': '46 us' },
    { 'shelves.output_esr': '0.3 mohm', 'shelves.control_delay': '38 us' },
  ],
];

describe.each(cabinets)('a cabinet with %j', (unstable, stable) => {
  it('oscillates as its growing mode says, frequency within 5 %', () => {
    const modes = growing(unstable);
    expect(modes.length).toBeGreaterThan(0);
    const report = reported('idle', { ...unstable, 'load.power': '240 kW', duration: '60 ms' });
    const ripple = findingOf(report, 'device-ripple');
    expect(ripple.verdict).toBe('fail');
    expect(ripple.value).toBeGreaterThan(0.06);
    expect(report).toMatchObject({ verdict: 'fail', outcome: { kind: 'oscillating' } });
    const grew_kHz = Number(/it grew by .* at ([\d.]+) kHz/.exec(ripple.reason!)![1]);
    const nearest = Math.min(
      ...modes.map(({ frequency_Hz }) => Math.abs((1e3 * grew_kHz) / frequency_Hz - 1)),
    );
    expect(nearest).toBeLessThan(0.05);
  });

  it('settles after a step where its modes die', () => {
    expect(growing(stable)).toEqual([]);
    const report = reported('single-step', { ...stable, 'load.at': '5 ms', duration: '0.52 s' });
    for (const id of ['device-ripple', 'bus-ripple']) expect(findingOf(report, id).verdict).toBe('pass');
    expect(report.outcome.kind).toBe('steady');
  });
});
