/**
 * Shorts in small cabinets, with trays that push and pull: no converter asks a bus at 0 V for a constant power, so the
 * steps settle, the books close and the figures do not depend on the step.
 *
 * Bounds: books to 1e-4 of throughput and losses (what the jump of a shorted sled's ceramics, 0.12 µs against a tick of
 * 0.25 µs, leaves open is a tenth of it); lowest and highest voltage between the default step and a quarter of it to
 * 0.1 % of nominal. A run that ends because the bus ran away ends somewhere above twice nominal: up to there.
 */
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { busOf } from './runs.ts';
import { type SmallCabinet, smallCabinet } from './small-cabinet.ts';

const books = 1e-4;
const bus_V = 0.05;

const constant = (power: string): string => `{ kind: constant, power: ${power} }`;

const shorts: readonly (readonly [string, SmallCabinet])[] = [
  [
    'a sled for longer than the run',
    {
      trays: 1,
      banks: 1,
      batteries: 2,
      sleds: 1,
      load: constant('6 kW'),
      duration: '35 ms',
      events: ['at: 25 ms, what: sled-short, unit: sled-1, to: 2.5 mΩ, for: 40 ms'],
    },
  ],
  [
    'a sled, hard, while the tray gives all it can',
    {
      trays: 1,
      banks: 0,
      batteries: 0,
      sleds: 1,
      load: constant('4 kW'),
      duration: '20 ms',
      events: [
        'at: 2 ms, what: tray-stuck, unit: T1, to: 20 kW',
        'at: 5 ms, what: sled-short, unit: sled-1, to: 0.3 mΩ, for: 8 ms',
      ],
    },
  ],
  ...(['20 kW', '-20 kW'] as const).map((power): readonly [string, SmallCabinet] => [
    `a bank for a while, with trays stuck at ${power} and the sleds gone`,
    {
      trays: 4,
      banks: 3,
      batteries: 1,
      sleds: 2,
      load: constant('4 kW'),
      duration: '30 ms',
      events: [
        `at: 1 ms, what: tray-stuck, unit: T4, to: ${power}`,
        `at: 1 ms, what: tray-stuck, unit: T3, to: ${power}`,
        'at: 3 ms, what: sled-off, unit: all',
        'at: 5 ms, what: bank-short, unit: K3, for: 11 ms',
      ],
    },
  ]),
  [
    'by a failed shelf that draws more than there is, with the only sled gone',
    {
      trays: 2,
      banks: 1,
      batteries: 1,
      sleds: 1,
      load: constant('5 kW'),
      duration: '30 ms',
      events: ['at: 3 ms, what: sled-off, unit: sled-1', 'at: 5 ms, what: reverse-feed, unit: S1, to: 5 kA'],
    },
  ],
];

describe('a bus that is shorted by', () => {
  it.each(shorts)('%s: closed books and the same bus at a quarter of the step', (_, asked) => {
    const scenario = smallCabinet(asked);
    const [whole, quarter] = [1, 4].map((refine) =>
      simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48, 51), refine }),
    );
    for (const { status, audit, counters } of [whole!, quarter!]) {
      expect(['ok', 'collapsed']).toContain(status);
      expect(Math.abs(audit.residual_ratio)).toBeLessThan(books);
      expect(Math.abs(audit.residual_loss_ratio)).toBeLessThan(books);
      expect(counters.unsettled_steps).toBe(0);
    }
    expect(Math.abs(busOf(whole!).min - busOf(quarter!).min)).toBeLessThan(bus_V);
    const top = (result: Result): number => Math.min(busOf(result).max, 2 * scenario.nominal_V);
    expect(Math.abs(top(whole!) - top(quarter!))).toBeLessThan(bus_V);
  });
});
