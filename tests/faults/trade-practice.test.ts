/**
 * What the trade says of such cabinets; common practice, no source. Nothing in src was written towards these.
 *
 * - With a fast signal trays smooth what the load has below about 200 Hz, and less as the signal gets later.
 * - An open tie lets the link bars share better than a closed one under an uneven load when the shelves share
 *   actively.
 * - On AC loss the trays stop and the batteries start.
 *
 * Tolerance: "about 200 Hz" is taken as between 160 and 400 Hz.
 */
import { describe, expect, it } from 'vitest';
import { ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { type Changes, shippedWith, simulated } from '../engine/runs.ts';

/** Swing of the shelves' power over that of the load, for a small triangle of this frequency. */
function kept(frequency_Hz: number, latency: string): number {
  const period_ms = 1e3 / frequency_Hz;
  const result = simulated('fast-signal', {
    start: 'settled',
    'load.low': '195 kW',
    'load.high': '205 kW',
    'load.period': `${period_ms} ms`,
    'load.duty': '50 %',
    'load.edge': `${(0.499 * period_ms).toFixed(3)} ms`,
    duration: '0.6 s',
    warm_up: '0.3 s',
    'firmware.smoothing.latency': latency,
  });
  const swing = (id: string): number => {
    const found = result.extremes.find(({ channel }) => channel === id)!;
    return found.max - found.min;
  };
  return swing('total.shelves_W') / swing('total.load_W');
}

describe('trays with a fast signal', () => {
  it('take most of the load’s content well below 200 Hz, and none of it well above', () => {
    expect(kept(20, '0.1 ms')).toBeLessThan(0.15);
    expect(kept(100, '0.1 ms')).toBeLessThan(0.6);
    expect(kept(400, '0.1 ms')).toBeGreaterThan(1);
    expect(kept(160, '0.1 ms')).toBeLessThan(1);
  });

  it('take less as the signal gets later, and reach less far up', () => {
    for (const frequency_Hz of [20, 50, 100]) {
      const ways = ['0.1 ms', '0.5 ms', '2 ms'].map((latency) => kept(frequency_Hz, latency));
      expect(ways[0]!).toBeLessThan(ways[1]!);
      expect(ways[1]!).toBeLessThan(ways[2]!);
    }
    expect(kept(100, '2 ms')).toBeGreaterThan(1);
  });
});

describe('link bars under a load of two thirds at one end', () => {
  /** How far the sections' links are from even: current of A's over B's, less one. */
  function uneven(closed: boolean): number {
    const weights = Array.from({ length: 16 }, (_, k) => [
      `sleds.sled-${k + 1}.weight`,
      k < 8 ? '200' : '100',
    ]);
    const changes: Changes = {
      ...Object.fromEntries(weights),
      'load.power': '200 kW',
      'bars.tie.closed': `${closed}`,
    };
    const scenario = shippedWith('idle', changes);
    const { network, stepper } = ready(assemble(scenario), makeDemand(scenario), 1);
    const { bars } = network;
    const [a1, a2, b1, b2] = ['LA1', 'LA2', 'LB1', 'LB2'].map(
      (id) => stepper.x0[bars.offset + bars.names.indexOf(id)]!,
    );
    return Math.abs((a1! + a2!) / (b1! + b2!) - 1);
  }

  it('share better with the tie open than with it closed', () => {
    expect(uneven(false)).toBeLessThan(0.01);
    expect(uneven(true)).toBeGreaterThan(0.04);
  });
});

describe('AC lost', () => {
  it('stops the trays and starts the batteries, in one word', () => {
    const result = simulated('ac-loss-and-return', {
      'events.1.at': '0.1 s',
      'events.2.at': '0.3 s',
      duration: '0.2 s',
    });
    const first = (what: string) => result.log.find((entry) => entry.what === what)!;
    expect(first('tray-stop').tick).toBe(first('ac-signal').tick);
    expect(first('battery-start').tick).toBe(first('ac-signal').tick);
    const power = result.recording.channels.findIndex(({ id }) => id === 'total.trays_W');
    expect(Math.abs(result.recording.max[power]!.at(-1)!)).toBeLessThan(1);
  });
});
