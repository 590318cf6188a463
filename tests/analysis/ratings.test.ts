/** Every rated part has a limit that judges its rating: two runs that exceed it, and one beside them that does not. */
import { describe, expect, it } from 'vitest';
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { run } from '../../src/run.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { changes } from '../studies/here.ts';

const shelf = new Shelf(new DiskSource());
/** Runs that several limits are read off. */
const reports = new Map<string, Report>();

function findingOf(limit: string, scenario: string, ...pairs: readonly string[]): Finding {
  const key = [scenario, ...pairs].join('; ');
  const report =
    reports.get(key) ??
    run(shelf.read({ scenario: `scenarios/${scenario}.yaml`, changes: changes(...pairs) }).scenario, null)
      .report;
  reports.set(key, report);
  return report.findings.find(({ id }) => id === limit)!;
}

/** Five whole periods: 2 s of them stand for the load without end. */
const pulses = ['duration = 2 s', 'load.period = 0.4 s'];
/** Shelves that may go on beyond their rating. */
const weak = [
  'duration = 0.5 s',
  ...['power_limit', 'current_limit', 'output_power_limit'].map((path) => `shelves.${path} = 200 %`),
];

interface Attack {
  readonly limit: string;
  readonly beyond: readonly (readonly [scenario: string, ...changes: string[]])[];
  readonly beside: readonly [scenario: string, ...changes: string[]];
}

const attacks: readonly Attack[] = [
  {
    // 255 kW on sixteen sleds of 15 kW, and half the sleds under the load of all.
    limit: 'sled-power',
    beyond: [
      ['single-step', 'duration = 1.4 s', 'load.after = 255 kW'],
      ['single-step', 'duration = 1.4 s', 'sleds.peak_power = 8 kW'],
    ],
    beside: ['single-step', 'duration = 1.4 s'],
  },
  {
    // Pulses whose mean over a second is far below the rating.
    limit: 'sled-power-250ms',
    beyond: [
      ['pulse-train', 'duration = 1.6 s', 'load.high = 255 kW'],
      ['pulse-train', ...pulses, 'load.high = 255 kW', 'load.low = 40 kW'],
    ],
    beside: ['pulse-train', ...pulses],
  },
  {
    limit: 'sled-power-50ms',
    beyond: [
      ['pulse-train', ...pulses, 'load.high = 300 kW', 'load.duty = 25 %', 'load.low = 40 kW'],
      ['single-step', 'duration = 0.65 s', 'sleds.peak_power = 12 kW'],
    ],
    beside: ['single-step', 'duration = 0.65 s'],
  },
  {
    // Three times the rating, and once the peak of one sled alone.
    limit: 'sled-power-peak',
    beyond: [
      ['single-step', 'duration = 0.65 s', 'sleds.peak_power = 5 kW'],
      ['single-step', 'duration = 0.65 s', 'sleds.sled-7.peak_power = 8 kW'],
    ],
    beside: ['single-step', 'duration = 0.65 s'],
  },
  {
    // 240 kW on three shelves of 60 kW, and on five of which each is rated 40 kW.
    limit: 'battery-current',
    beyond: [
      ['tray-assist', 'load.power = 200 kW', 'batteries.B1.fitted = no', 'batteries.B2.fitted = no'],
      ['tray-assist', 'batteries.module_power = 6 kW'],
    ],
    beside: ['tray-assist'],
  },
  {
    limit: 'tray-converter',
    beyond: [
      ['single-step', 'duration = 0.65 s', 'trays.power_limit = 10 kW'],
      ['single-step', 'duration = 0.65 s', 'trays.capacitor_current_limit = 400 A'],
    ],
    beside: ['single-step', 'duration = 0.65 s'],
  },
  {
    // Bars of half the section, and the load on fewer of them.
    limit: 'bar-heat',
    beyond: [
      ['pulse-train', ...pulses, 'bars.links.rated_current = 900 A'],
      [
        'pulse-train',
        ...pulses,
        'bars.links.LA1.closed = no',
        'bars.links.LB1.closed = no',
        'bars.links.LB2.closed = no',
      ],
    ],
    beside: ['pulse-train', ...pulses],
  },
  {
    limit: 'line-current-continuous',
    beyond: [
      ['pulse-train', ...pulses, 'feeders.breaker_current = 150 A'],
      ['idle', 'duration = 1 s', 'feeders.F1.breaker_current = 20 A'],
    ],
    beside: ['pulse-train', ...pulses],
  },
  {
    limit: 'shelf-continuous',
    beyond: [
      ['idle', ...weak, 'shelves.module_power = 0.7 kW'],
      ['idle', ...weak, 'shelves.module_count = 1', 'shelves.module_power = 3.6 kW'],
    ],
    beside: ['pulse-train', ...pulses],
  },
  {
    limit: 'tray-capacitor-rms',
    beyond: [
      ['pulse-train', ...pulses, 'trays.capacitor_current_rms_rating = 40 A'],
      ['pulse-train', ...pulses, 'trays.count = 2', 'trays.capacitor_current_rms_rating = 150 A'],
    ],
    beside: ['pulse-train', ...pulses],
  },
  {
    limit: 'bank-ripple-rms',
    beyond: [
      ['pulse-train', ...pulses, 'banks.ripple_current_rating = 1 A'],
      ['pulse-train', ...pulses, 'banks.K1.ripple_current_rating = 1 A'],
    ],
    beside: ['pulse-train', ...pulses],
  },
];

describe.each(attacks)('$limit', ({ limit, beyond, beside }) => {
  it.each(beyond)('is exceeded in %s with %s %s %s', (scenario, ...pairs) => {
    expect(findingOf(limit, scenario, ...pairs)).toMatchObject({ verdict: 'fail' });
  });

  it('is kept beside it', () => {
    const [scenario, ...pairs] = beside;
    expect(findingOf(limit, scenario, ...pairs)).toMatchObject({ verdict: 'pass' });
  });
});

describe('what a load leaves of the sleds', () => {
  it('is no margin of the cabinet: it has no headroom and never comes before a limit that has one', () => {
    const { value, limit, headroom_ratio, node } = findingOf('sled-power', 'single-step', 'duration = 1.4 s');
    expect(headroom_ratio).toBe(null);
    expect(value! / limit!).toBeGreaterThan(0.98);
    expect(node).toBe('sled-10');
  });
});
