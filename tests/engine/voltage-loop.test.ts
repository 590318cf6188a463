/**
 * Sampled voltage loops in a cabinet of one shelf: how they come to the stage's own loop as the period goes to nothing, what
 * converters, quanta and jitter do, and that faults find their way through them.
 */
import { describe, expect, it } from 'vitest';
import { advance } from '../../src/engine/advance.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { ShelfValues } from '../../src/scenario/parameters/shelf.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { busOf, countOf, shippedWith, simulated, swingAfter } from './runs.ts';
import { smallCabinet } from './small-cabinet.ts';

const step = smallCabinet({
  trays: 1,
  banks: 0,
  batteries: 0,
  sleds: 1,
  load: '{ kind: step, before: 10 kW, after: 25 kW, at: 0.5 ms, edge: 0.2 ms }',
  duration: '6 ms',
  events: ['at: 5.9 ms, what: tray-out, unit: T1'],
});

const every_s = 80e-6;

/** The shelf's output every 80 µs over 5 ms [V], under changes of the shelf. */
function wave(values: Partial<ShelfValues>): number[] {
  const scenario: Scenario = {
    ...step,
    shelves: step.shelves.map((shelf) => ({ ...shelf, values: { ...shelf.values, ...values } })),
  };
  const cabinet = ready(assemble(scenario), makeDemand(scenario), 8, 'plain');
  const agenda = firmwareAgenda(cabinet, 0);
  const { stages } = cabinet.network;
  return Array.from({ length: 62 }, (_, n) => {
    const at = (k: number): number => Math.round((k * every_s) / scenario.tick_s);
    advance(cabinet, agenda, at(n), at(n + 1), null);
    return cabinet.stepper.v0[stages.node[0]!]!;
  });
}

const apart_V = (a: readonly number[], b: readonly number[]): number =>
  Math.sqrt(a.reduce((sum, v, k) => sum + (v - b[k]!) ** 2, 0) / a.length);

describe('a sampled loop', () => {
  /** Next to no droop: the stage's own loop delays the voltage alone, the sampled one the current too. */
  const droop_ohm = 1e-7;
  const periods_s = [40e-6, 20e-6, 10e-6];

  it('comes to the continuous one without delay with its period, for what is left of it is a delay', () => {
    const goal = wave({ droop_ohm, control_delay_s: 0 });
    const far = periods_s.map((loop_period_s) => apart_V(wave({ droop_ohm, loop_period_s }), goal));
    for (const k of [0, 1]) expect(far[k]! / far[k + 1]!).toBeCloseTo(2, 0);
  });

  it.each([0, 1])('comes with its square to the one with a delay of %s T + T/2', (latency) => {
    const far = periods_s
      .slice(0, 2)
      .map((T) =>
        apart_V(
          wave({ droop_ohm, loop_period_s: T, loop_latency_s: latency * T }),
          wave({ droop_ohm, control_delay_s: (latency + 0.5) * T }),
        ),
      );
    expect(far[0]! / far[1]!).toBeGreaterThan(3.5);
    expect(far[1]).toBeLessThan(0.5e-3);
  });

  /** No slew limit: it looks ahead by the latency alone. */
  const timed = { slew_limit_A_per_s: 1e12, loop_period_s: 20e-6 };
  const jittered = { ...timed, loop_latency_s: 5e-6, loop_jitter_s: 10e-6 };

  it('jitters by the seed: from its latency up to that and all of the jitter', () => {
    const jitter = wave(jittered);
    expect(jitter).toEqual(wave(jittered));
    const [least, most] = [5e-6, 15e-6].map((loop_latency_s) => wave({ ...timed, loop_latency_s }));
    const mean = wave({ ...timed, loop_latency_s: 10e-6 });
    expect(apart_V(jitter, mean)).toBeGreaterThan(1e-5);
    expect(apart_V(jitter, mean)).toBeLessThan(0.5 * apart_V(least!, most!));
  });

  it('starts settled and rests; behind a converter of 8 bits over 64 V it hunts by about a step', () => {
    const calm = { duration: '20 ms', 'shelves.loop_period': '50 us', 'firmware.share.trim_quantum': '0 V' };
    expect(swingAfter(simulated('idle', calm), 0)).toBeLessThan(1e-9);
    const coarse = { 'shelves.loop_voltage_bits': '8', 'shelves.loop_voltage_range': '64 V' };
    const swing_V = swingAfter(simulated('idle', { ...calm, ...coarse }), 0.01);
    expect(swing_V).toBeGreaterThan(0.02);
    expect(swing_V).toBeLessThan(1);
  });
});

describe('faults through sampled loops', () => {
  const sampled = { 'shelves.loop_period': '50 us', 'shelves.loop_latency': '25 us' };

  it.each([
    ['shelf-trip', { duration: '0.15 s', 'events.1.at': '0.1 s' }, 'shelf-trip'],
    ['modules-out', { duration: '0.15 s', 'events.1.at': '0.1 s' }, 'modules'],
    ['overload-hiccup', { duration: '0.2 s' }, 'limit-on'],
  ] as const)("%s: the bus goes where it goes with the stages' own loops", (name, changes, told) => {
    const own = simulated(name, changes);
    const result = simulated(name, { ...changes, ...sampled });
    expect(result.status).toBe(own.status);
    expect(countOf(result, told)).toBe(countOf(own, told));
    const [a, b] = [busOf(own), busOf(result)];
    expect(Math.abs(a.min - b.min)).toBeLessThan(0.3);
    expect(Math.abs(a.max - b.max)).toBeLessThan(0.3);
  });
});

describe('what cannot be is refused', () => {
  it.each([
    [{ 'shelves.loop_latency': '51 us' }, 'together at most the period'],
    [{ 'shelves.loop_latency': '40 us', 'shelves.loop_jitter': '20 us' }, 'together at most the period'],
    [{ 'shelves.loop_voltage_bits': '12' }, 'more than the set point'],
    [
      { 'shelves.loop_current_bits': '12', 'shelves.loop_current_range': '800 A' },
      'more than the current limit',
    ],
    [{ 'shelves.loop_period': '50.1 us' }, 'a whole number of ticks'],
  ])('%o', (changes, words) => {
    expect(() => shippedWith('idle', { 'shelves.loop_period': '50 us', ...changes })).toThrow(words);
  });
});
