/**
 * Cabinets that the linear model calls unstable and their stable neighbours, told apart by the run; frequencies
 * against the modes of the same equations, differentiated.
 */
import { describe, expect, it } from 'vitest';
import type { Finding, Report } from '../../src/analysis/report.ts';
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
    const report = reported('single-step', { ...stable, 'load.at': '5 ms', duration: '80 ms' });
    for (const id of ['device-ripple', 'bus-ripple']) expect(findingOf(report, id).verdict).toBe('pass');
    expect(report.outcome.kind).toBe('steady');
  });
});

/** Runs that swing for one reason or another: which limit fails, whose swing it is, at which frequency. */
const attacks: readonly (readonly [
  what: string,
  scenario: string,
  changes: Changes,
  limit: string,
  owner: RegExp,
  frequency_Hz: readonly [number, number],
])[] = [
  [
    'batteries that are late hunt while they carry',
    'ac-loss-and-return',
    { 'batteries.control_delay': '30 us', duration: '0.56 s' },
    'device-ripple',
    /^B/,
    [8000, 9000],
  ],
  [
    'edges every 10 ms hide nothing',
    'pulse-train',
    {
      'shelves.control_delay': '85 us',
      'load.period': '20 ms',
      'load.duty': '50 %',
      'load.edge': '0.2 ms',
      duration: '0.1 s',
    },
    'device-ripple',
    /^S/,
    [3700, 4200],
  ],
  [
    'one that shows only in the last 20 ms is seen',
    'single-step',
    { 'shelves.control_delay': '85 us', 'load.at': '2 ms', 'load.before': '31 kW', duration: '25 ms' },
    'device-ripple',
    /^S/,
    [3700, 4200],
  ],
  [
    'trays that mix ages of measurement swing as a group',
    'idle',
    {
      'load.power': '240 kW',
      'firmware.smoothing.own_power': 'present',
      'firmware.smoothing.latency': '0.5 ms',
      duration: '0.2 s',
    },
    'device-ripple',
    /^T/,
    [200, 235],
  ],
  [
    'a share loop that is too late hunts',
    'idle',
    {
      'load.power': '240 kW',
      'firmware.share.latency': '20 ms',
      'firmware.share.time_constant': '12 ms',
      duration: '1.2 s',
    },
    'device-hunting',
    /^S/,
    [10, 11.5],
  ],
];

describe('what swings for ever', () => {
  it.each(attacks)('%s', (_what, scenario, changes, limit, owner, [low_Hz, high_Hz]) => {
    const report = reported(scenario, changes);
    const finding = findingOf(report, limit);
    expect(finding.verdict).toBe('fail');
    expect(finding.node).toMatch(owner);
    const [, value, unit] = /at ([\d.]+) (k?)Hz/.exec(finding.reason!)!;
    const frequency_Hz = Number(value) * (unit === 'k' ? 1e3 : 1);
    expect(frequency_Hz).toBeGreaterThan(low_Hz);
    expect(frequency_Hz).toBeLessThan(high_Hz);
    expect(report.outcome.kind).toBe('oscillating');
  });

  it('is told as driven where the load drives it, and as a quantum of the trims where that is all', () => {
    const ripple = {
      'load.period': '50 ms',
      'load.low': '150 kW',
      'load.high': '160 kW',
      'load.edge': '20 ms',
      'load.duty': '50 %',
      duration: '0.6 s',
    };
    const driven = findingOf(reported('pulse-train', ripple), 'device-hunting');
    expect(driven).toMatchObject({ verdict: 'pass' });
    expect(driven.worst_outside?.reason).toMatch(/^T\d+ swings .* at 20 Hz, driven by the load/);
    const quantum = findingOf(
      reported('idle', { duration: '1.5 s', 'firmware.share.trim_quantum': '20 mV' }),
      'device-hunting',
    );
    expect(quantum).toMatchObject({ verdict: 'pass' });
    expect(quantum.worst_outside?.reason).toMatch(/^S\d swings .* a limit cycle of the trim quantum/);
  });

  it('is not excused as a quantum where the quantum is too coarse', () => {
    const report = reported('idle', { duration: '1.5 s', 'firmware.share.trim_quantum': '50 mV' });
    expect(findingOf(report, 'device-hunting')).toMatchObject({ verdict: 'fail' });
  });
});
