/** What swings for ever, by whom and at which frequency; and what is driven, or one quantum of the trims, told apart. */
import { describe, expect, it } from 'vitest';
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { run } from '../../src/run.ts';
import { type Changes, shippedWith } from './runs.ts';

function reported(name: string, changes: Changes): Report {
  return run(shippedWith(name, changes), null).report;
}

function findingOf(report: Report, id: string): Finding {
  return report.findings.find((finding) => finding.id === id)!;
}

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
    { 'batteries.control_delay': '110 us', duration: '0.56 s' },
    'device-ripple',
    /^B/,
    [2400, 2700],
  ],
  [
    'edges every 10 ms hide nothing',
    'pulse-train',
    {
      'shelves.control_delay': '110 us',
      'load.period': '20 ms',
      'load.duty': '50 %',
      'load.edge': '0.2 ms',
      duration: '0.1 s',
    },
    'device-ripple',
    /^S/,
    [2500, 4200],
  ],
  [
    'a run of 25 ms is long enough',
    'single-step',
    { 'shelves.control_delay': '110 us', 'load.at': '2 ms', 'load.before': '31 kW', duration: '25 ms' },
    'device-ripple',
    /^S/,
    [2500, 4200],
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
    // Each sled has a profile of its own here; no one of them swings by as much as a tray.
    const apart = findingOf(reported('self-smoothed', {}), 'device-hunting');
    expect(apart).toMatchObject({ verdict: 'pass' });
    expect(apart.worst_outside?.reason).toMatch(/^T\d+ swings .* at 625(\.\d)? mHz, driven by the load/);
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
