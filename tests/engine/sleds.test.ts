/** Sequences of sleds and the power brake: each shipped scenario does what it says, and without its remedy does not. */
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { happens } from '../happens.ts';
import { busOf, type Changes, countOf, shippedWith, simulated } from './runs.ts';

function expectClosed({ status, audit }: Result): void {
  expect(status).toBe('ok');
  expect(Math.abs(audit.residual_ratio)).toBeLessThan(1e-6);
  expect(Math.abs(audit.residual_loss_ratio)).toBeLessThan(1e-5);
}

function lowest(result: Result, channel: string): number {
  return result.extremes.find((e) => e.channel === channel)!.min;
}

function highest(result: Result, channel: string): number {
  return result.extremes.find((e) => e.channel === channel)!.max;
}

function last(result: Result, channel: string): number {
  const { channels, max, bucketCount } = result.recording;
  return max[channels.findIndex(({ id }) => id === channel)]![bucketCount - 1]!;
}

describe('a sled that shorts', () => {
  it('cuts its neighbours off while its fuse clears; they all come back and none a second time', () => {
    const result = simulated('sled-short', { duration: '4 s' });
    expectClosed(result);
    expect(countOf(result, 'sled-cut-off')).toBe(15);
    expect(countOf(result, 'sled-restart')).toBe(15);
    expect(countOf(result, 'dc-stop')).toBe(0);
    expect(last(result, 'sled-5.power_W')).toBe(0);
    // 15 of 16 sleds of a 180 kW load, sled 5 weighs 192 of 3000.
    expect(Math.abs(last(result, 'total.load_W') / (180e3 * (1 - 192 / 3000)) - 1)).toBeLessThan(1e-3);
  });

  it('leaves its neighbours on where the dip stays above their cut-off', () => {
    const result = simulated('sled-short', { 'events.1.to': '16 mΩ', duration: '1.2 s' });
    expectClosed(result);
    expect(countOf(result, 'sled-cut-off')).toBe(0);
    expect(busOf(result).min).toBeGreaterThan(42);
  });

  it('is not judged: neither its own voltage nor the stays of its node count from then on', () => {
    const result = simulated('sled-short', { 'events.1.to': '16 mΩ', duration: '1.2 s' });
    expect(lowest(result, 'sled-5.voltage_V')).toBeGreaterThan(49);
    const n = result.stays.nodes.indexOf('sled-5');
    const levels = result.stays.levels_V.length;
    expect(result.stays.normal.belowCount.subarray(n * levels, (n + 1) * levels).every((c) => c <= 1)).toBe(
      true,
    );
  });
});

describe('a sled that is taken out and another that is plugged in', () => {
  const result = simulated('hot-swap', { duration: '5 s' });

  it('charges at the current of its limiter, waits for its restart and draws its power again', () => {
    expectClosed(result);
    const charged = result.log.find(({ what }) => what === 'sled-charged')!;
    // 8.4 mF to 49.9 V at 50 A: 8.4 ms, and a little more as the current falls between samples.
    expect(charged.time_s - 3).toBeGreaterThan(8.3e-3);
    expect(charged.time_s - 3).toBeLessThan(9.5e-3);
    const restart = result.log.find(({ what }) => what === 'sled-restart')!;
    expect(Math.abs(restart.time_s - charged.time_s - 1)).toBeLessThan(2e-4);
    // Sled 8 weighs 181 of 3000.
    expect(Math.abs(last(result, 'sled-8.power_W') / (200e3 * (181 / 3000)) - 1)).toBeLessThan(1e-3);
  });

  it('books the energy that the old capacitors still held', () => {
    const taken = result.audit.rows.find(({ cause }) => cause === 'taken out')!;
    expect(taken.owner).toBe('sled-8');
    expect(Math.abs(taken.energy_J / (0.5 * 8.4e-3 * 50 * 50) - 1)).toBeLessThan(0.05);
  });

  it('hardly moves the bus of the others', () => {
    expect(busOf(result).min).toBeGreaterThan(49.5);
    expect(busOf(result).max).toBeLessThan(50.5);
  });
});

describe('all sleds after a dark bus', () => {
  // The shelves walk in from 3.5 s on; what happens to 8 s shows whether they can follow.
  const short: Changes = { duration: '8 s' };

  it('stay on when each waits its place in the row', () => {
    const result = simulated('mass-restart', short);
    expectClosed(result);
    expect(countOf(result, 'sled-cut-off')).toBe(16);
    expect(countOf(result, 'battery-empty')).toBe(5);
  });

  it('fall again when all come at once on shelves that still walk in', () => {
    const result = simulated('mass-restart', { ...short, 'sleds.restart_stagger': '0 s' });
    expectClosed(result);
    expect(countOf(result, 'sled-cut-off')).toBeGreaterThan(16);
  });

  it('come back in an order drawn by the seed where only a scatter is set', () => {
    const order = (seed: string): string[] =>
      simulated('mass-restart', {
        ...short,
        'sleds.restart_stagger': '0 s',
        'sleds.restart_scatter': '30 s',
        seed,
      })
        .log.filter(({ what }) => what === 'sled-restart')
        .map(({ who, time_s }) => `${who} ${time_s.toFixed(4)}`);
    const first = order('1');
    expect(first).toEqual(order('1'));
    expect(first).not.toEqual(order('2'));
  });
});

describe('the power brake', () => {
  it('holds the sleds when two shelves are out, so that no battery starts', () => {
    const result = simulated('braked-overload', { duration: '4 s' });
    expectClosed(result);
    expect(countOf(result, 'brake-on')).toBe(1);
    expect(countOf(result, 'battery-start')).toBe(0);
    expect(Math.abs(last(result, 'total.load_W') / (0.8 * 240e3) - 1)).toBeLessThan(1e-3);
  });

  it('reaches the sleds its latency after the supervisor has decided', () => {
    const result = simulated('braked-overload', { 'firmware.brake.latency': '3 ms', duration: '1.1 s' });
    const at = (kind: string): number => result.log.find(({ what }) => what === kind)!.time_s;
    expect(Math.abs(at('brake-on') - at('brake-raised') - 3e-3)).toBeLessThan(1e-9);
  });

  it('without it batteries must start, and the bus falls deep until they do', () => {
    const result = simulated('braked-overload', { 'firmware.brake.level': '100 %', duration: '2 s' });
    expect(result.status).toBe('ok');
    expect(countOf(result, 'brake-on')).toBe(0);
    expect(countOf(result, 'battery-start')).toBe(5);
    // 1.1 s: the shelves hold to 108 % of their power and the bus falls until the batteries are there.
    expect(busOf(result).min).toBeLessThan(44);
  });

  it('keeps the sleds on when the batteries run low, and lets go only when AC carries again', () => {
    const result = simulated('braked-empty');
    expectClosed(result);
    expect(countOf(result, 'sled-cut-off')).toBe(0);
    expect(countOf(result, 'brake-on')).toBe(1);
    const off = result.log.find(({ what }) => what === 'brake-off')!.time_s;
    const ends = result.log.filter(({ what, detail }) => what === 'walk-in' && detail === 'walk-in ends');
    expect(off).toBeGreaterThan(ends.at(-1)!.time_s);
    expect(Math.abs(last(result, 'total.load_W') / 200e3 - 1)).toBeLessThan(1e-3);
  });

  it('without it the sleds cut off when the batteries are empty', () => {
    const result = simulated('braked-empty', { 'firmware.brake.level': '100 %', duration: '5 s' });
    expect(countOf(result, 'sled-cut-off')).toBeGreaterThan(0);
  });

  it('can be stated as an event, for some time and in a ramp', () => {
    const base = shippedWith('single-step', { 'load.at': '0.9 s', duration: '0.9 s' });
    const event = { ...happens(0.1, 'brake', 'all'), amount: 0.5, over_s: 0.1, for_s: 0.3 };
    const scenario = { ...base, events: [event] };
    const result = simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48) });
    expectClosed(result);
    expect(Math.abs(lowest(result, 'total.load_W') / 50e3 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(last(result, 'total.load_W') / 100e3 - 1)).toBeLessThan(1e-3);
    expect(result.log.map(({ what }) => what).filter((w) => w.startsWith('brake'))).toEqual([
      'brake-on',
      'brake-off',
    ]);
  });
});

describe('a sled that throttles on a low voltage', () => {
  const weak: Changes = {
    'firmware.brake.level': '100 %',
    'sleds.throttle_voltage': '47.5 V',
    'sleds.throttle_level': '50 %',
    duration: '2 s',
  };

  it('takes the load down before the cut-off takes it away', () => {
    const result = simulated('braked-overload', weak);
    expectClosed(result);
    expect(countOf(result, 'sled-throttle')).toBeGreaterThan(0);
    expect(countOf(result, 'sled-cut-off')).toBe(0);
    const cutOff_V = 42;
    expect(busOf(result).min).toBeGreaterThan(cutOff_V);
  });

  it('never does where it is not fitted: the same bits as without the parameters', () => {
    const plain = simulated('single-step', { duration: '0.3 s' });
    const unfitted = simulated('single-step', { duration: '0.3 s', 'sleds.throttle_voltage': '47 V' });
    expect(unfitted.recording.min).toEqual(plain.recording.min);
  });
});

describe('an uneven load', () => {
  const even: Changes = { 'sleds.weight': '1', duration: '2 s' };
  const weights = (a: string, b: string): Changes =>
    Object.fromEntries(
      Array.from({ length: 16 }, (_, k) => [`sleds.sled-${k + 1}.weight`, k < 8 ? a : b] as const),
    );
  const worst = (r: Result): number =>
    Math.min(...Array.from({ length: 16 }, (_, k) => lowest(r, `sled-${k + 1}.voltage_V`)));
  const links = (r: Result): number[] =>
    ['LA1', 'LA2', 'LB1', 'LB2'].map((id) => highest(r, `${id}.current_A`));
  const rest = simulated('uneven-load', { ...even, ...weights('1', '1') });

  it('of 100 to 0 lowers the worst sled by 0.05 to 0.2 V', () => {
    const result = simulated('uneven-load', { duration: '2 s' });
    expectClosed(result);
    const drop = worst(rest) - worst(result);
    expect(drop).toBeGreaterThan(0.05);
    expect(drop).toBeLessThan(0.2);
  });

  it('of 67 to 33 lowers it by a third of that', () => {
    const result = simulated('uneven-load', { ...even, ...weights('2', '1') });
    const whole = worst(rest) - worst(simulated('uneven-load', { duration: '2 s' }));
    const drop = worst(rest) - worst(result);
    expect(drop / whole).toBeGreaterThan(0.2);
    expect(drop / whole).toBeLessThan(0.45);
  });

  // Common practice, no source: with shelves that share actively the link bars share better over an open tie.
  it('spreads better over the link bars when the tie is open, as the shelves share actively', () => {
    const spread = (r: Result): number => {
      const [a1, a2, b1, b2] = links(r) as [number, number, number, number];
      return Math.abs(a1 + a2 - b1 - b2) / (a1 + a2 + b1 + b2);
    };
    const closed = spread(simulated('uneven-load', { duration: '2 s' }));
    const open = spread(simulated('uneven-load', { duration: '2 s', 'bars.tie.closed': 'no' }));
    expect(open).toBeLessThan(closed / 3);
  });
});
