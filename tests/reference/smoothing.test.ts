/**
 * First-order smoothing of a square wave by the trays' firmware alone: what the shelves see is the load behind a
 * lag τ, so over one period, with a = e^(−DT/τ) and b = e^(−(1−D)T/τ),
 *   ripple dP_pp = dP (1 − a)(1 − b)/(1 − a b),   energy swing of the trays E_pp = τ dP_pp.
 * Textbook (step response of an RC); the same form as the temperature ripple of a bar under pulses.
 *
 * The plant here is bare: the source is the load less the trays, at once, no bars, no latency. Tolerance 1e-4
 * of the ripple: the task steps its lag every 0.1 ms, which is 2e-5 of τ.
 */
import { describe, it } from 'vitest';
import { portsOf } from '../../src/devices/ports.ts';
import { Log } from '../../src/events/log.ts';
import { siteOf } from '../../src/firmware/site.ts';
import { Smoothing } from '../../src/firmware/tray/smoothing.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';
import { published } from './published.ts';

/** Runs the task on a square wave into its steady cycle; gives the source's ripple and the trays' energy swing. */
function smooth(tau_s: number, dP: number, T: number, D: number) {
  const scenario = shippedWith('idle', {
    'firmware.smoothing.period': '0.1 ms',
    'firmware.smoothing.latency': '0 s',
    'firmware.smoothing.time_constant': `${tau_s} s`,
    // Nothing but the smoothing itself: no charge loop to speak of, no limits in reach.
    'firmware.smoothing.charge_power_limit': '0.001 W',
    'trays.power_limit': '1 MW',
    'trays.bus_current_limit': '100 kA',
    'trays.capacitor_current_limit': '5 kA',
  });
  const network = assemble(scenario);
  const { trays, sensor, stateCount, nodeCount } = network;
  const x = new Float64Array(stateCount);
  const v = new Float64Array(nodeCount).fill(50);
  for (let k = 0; k < trays.count; k++) x[trays.offset + trays.count + k] = 37;
  const site = siteOf(scenario, portsOf(network, { x, v, restamp() {} }), new Log(scenario.tick_s));
  const task = new Smoothing(site, scenario.firmware.smoothing);
  const low = 100e3;
  task.smoothed_W = low + D * dP;
  const period_s = 1e-4;
  const perCycle = Math.round(T / period_s);
  const up = Math.round(((1 - D) * T) / period_s);
  const cycles = Math.ceil((12 * tau_s) / T) + 2;
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  let energy = 0;
  let most = 0;
  let least = 0;
  for (let k = 0; k < cycles * perCycle; k++) {
    const load = k % perCycle >= up ? low + dP : low;
    let given = 0;
    for (let t = 0; t < trays.count; t++) given += x[trays.offset + t]!;
    x[sensor.offset] = load - given;
    x[sensor.offset + 1] = given;
    task.signal.sample();
    task.run(k * Math.round(period_s / scenario.tick_s));
    let now = 0;
    for (let t = 0; t < trays.count; t++) {
      x[trays.offset + t] = trays.command_W[t]!;
      now += trays.command_W[t]!;
    }
    if (k < (cycles - 1) * perCycle) continue;
    const source = load - now;
    highest = Math.max(highest, source);
    lowest = Math.min(lowest, source);
    energy += now * period_s;
    most = Math.max(most, energy);
    least = Math.min(least, energy);
  }
  return { ripple: highest - lowest, swing: most - least };
}

const ripples = published({
  what: 'ripple behind first-order smoothing',
  source: 'RC under pulses, closed form',
  unit: 'W',
});
const swings = published({
  what: 'energy swing of the trays, τ times the ripple',
  source: 'the same',
  unit: 'J',
});
const tables = published({ what: 'the same ripple over the step', source: 'RC under pulses, six digits' });

describe('smoothing of a square wave', () => {
  it.each([
    // τ s, dP W, T s, D, ripple over dP where a table has it
    [2.8, 140e3, 1.6, 0.7, null],
    [3.05, 180e3, 2, 0.7, null],
    [1, 100e3, 1, 0.5, 0.244919],
    [1, 100e3, 0.2, 0.5, 0.0499584],
    [0.5, 100e3, 2, 0.3, 0.668556],
  ])('τ %d s, %d W, period %d s, duty %d', (tau, dP, T, D, table) => {
    const got = smooth(tau, dP, T, D);
    const a = Math.exp((-D * T) / tau);
    const b = Math.exp((-(1 - D) * T) / tau);
    const ripple = (dP * (1 - a) * (1 - b)) / (1 - a * b);
    // The lag is stepped: one period of 0.1 ms over τ, halved, is what it may be off by, and the edge by one.
    const tolerance = Math.max(1e-4, 1e-4 / tau);
    const which = `τ ${tau} s, T ${T} s, D ${D}`;
    ripples({ which, expected: ripple, found: got.ripple, tolerance });
    swings({ which, expected: tau * ripple, found: got.swing, tolerance });
    if (table !== null) tables({ which, expected: table, found: got.ripple / dP, tolerance: 2 * tolerance });
  });
});
