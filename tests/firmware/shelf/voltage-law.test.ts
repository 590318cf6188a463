/**
 * The sampled voltage loop by hand: its controller against the continuous one in closed form, K_p + K_i/(jω) and the droop
 * R_d/(1 + jωτ_d), at 1 kHz; what its clamps, its modules and its quantum make of the command.
 */
import { describe, expect, it } from 'vitest';
import {
  runVoltage,
  type VoltageInput,
  type VoltageMemory,
} from '../../../src/firmware/shelf/voltage-law.ts';
import { voltageLawOf } from '../../../src/firmware/shelf/voltage-tuning.ts';
import { shippedWith } from '../../engine/runs.ts';

const [shelf] = shippedWith('idle').shelves;
const reference = shelf!.values;
const { proportional_gain_A_per_V: Kp, integral_gain_A_per_Vs: Ki, droop_ohm: R } = reference;
const { current_lag_s, droop_filter_time_s, slew_limit_A_per_s } = reference;

interface Told {
  readonly voltage_V?: number;
  readonly current_A?: number;
  readonly limit_A?: number;
  readonly alive_ratio?: number;
  readonly isRunning?: boolean;
}

/** A loop at rest at `rest_A`, 50 V and its set point; each turn takes what it is told and gives its command. */
function loop(changes: Partial<typeof reference>, rest_A = 400) {
  const law = voltageLawOf([{ ...reference, loop_period_s: 50e-6, ...changes }]);
  const one = (value: number) => Float64Array.of(value);
  const memory: VoltageMemory = {
    filter_A: one(rest_A),
    integral_A: one(rest_A),
    command_A: one(rest_A),
    alive_ratio: one(1),
    heldBy: new Uint8Array(1),
  };
  const command_A = one(0);
  const turn = (told: Told = {}): number => {
    const input: VoltageInput = {
      voltage_V: one(told.voltage_V ?? 50),
      current_A: one(told.current_A ?? rest_A),
      reference_V: one(50 + R * rest_A),
      limit_A: one(told.limit_A ?? 1e6),
      alive_ratio: one(told.alive_ratio ?? 1),
      isRunning: Uint8Array.of(told.isRunning === false ? 0 : 1),
    };
    runVoltage(law, memory, input, command_A);
    return command_A[0]!;
  };
  return { memory, turn };
}

/** Distance of what a period makes of a volt of error, and of an ampere of current, at 1 kHz from the closed form [A]. */
function distance_A(loop_period_s: number): number {
  const omega = 2 * Math.PI * 1e3;
  const turns = Math.round(20e-3 / loop_period_s);
  const part = (told: (s: number) => Told) => {
    // No clamp and no memory of the current: a slew limit that never holds.
    const { turn } = loop({ loop_period_s, slew_limit_A_per_s: 1e12 });
    let [re, im] = [0, 0];
    for (let n = 0; n < turns; n++) {
      const at = n * loop_period_s;
      const out = turn(told(Math.sin(omega * at))) - 400;
      // The last half: the filter has settled by then.
      if (2 * n < turns) continue;
      re += (4 / turns) * out * Math.sin(omega * at);
      im += (4 / turns) * out * Math.cos(omega * at);
    }
    return { re, im };
  };
  const volt = part((s) => ({ voltage_V: 50 - 1e-3 * s }));
  const ampere = part((s) => ({ current_A: 400 + s }));
  // K_p + K_i/(jω) of a millivolt; −R/(1 + jωτ) times the same of an ampere.
  const K = { re: Kp, im: -Ki / omega };
  const lag = omega * droop_filter_time_s;
  const droop = { re: -R / (1 + lag * lag), im: (R * lag) / (1 + lag * lag) };
  const far = [
    volt.re - 1e-3 * K.re,
    volt.im - 1e-3 * K.im,
    ampere.re - (K.re * droop.re - K.im * droop.im),
    ampere.im - (K.re * droop.im + K.im * droop.re),
  ];
  return Math.hypot(...far);
}

describe('runVoltage()', () => {
  it('comes to the continuous controller with the square of its period', () => {
    const at = [100e-6, 50e-6, 25e-6, 12.5e-6].map(distance_A);
    for (const k of [0, 1, 2]) {
      expect(at[k]! / at[k + 1]!).toBeGreaterThan(3.5);
      expect(at[k]! / at[k + 1]!).toBeLessThan(4.5);
    }
  });

  it('rests where it rests', () => {
    const { memory, turn } = loop({});
    for (let n = 0; n < 100; n++) turn();
    expect(memory.command_A[0]).toBeCloseTo(400, 9);
    expect(memory.heldBy[0]).toBe(0);
  });

  it.each([10e-6, 50e-6, 200e-6])(
    'at the slew limit moves the current by S_i T_v in a period of %s s, computed for that long',
    (period_s) => {
      const fade = Math.exp(-period_s / current_lag_s);
      const { memory, turn } = loop({ loop_period_s: period_s, loop_latency_s: period_s });
      let i = 400;
      let command = 400;
      let before = i;
      for (let n = 0; n < 6; n++) {
        const next = turn({ voltage_V: 20, current_A: i });
        before = i;
        i = command + (i - command) * fade;
        command = next;
      }
      expect(memory.heldBy[0]).toBe(1);
      expect(i - before).toBeCloseTo(slew_limit_A_per_s * period_s, 9);
    },
  );

  it('follows its clamp with the integrator, which then leaves it at once', () => {
    const { memory, turn } = loop({ slew_limit_A_per_s: 1e12 });
    for (let n = 0; n < 400; n++) turn({ voltage_V: 48, limit_A: 600, current_A: 600 });
    expect([memory.command_A[0], memory.heldBy[0]]).toEqual([600, 2]);
    expect(memory.integral_A[0]).toBeCloseTo(600, 6);
    expect(turn({ voltage_V: 51, limit_A: 600, current_A: 600 })).toBeLessThan(500);
    expect(memory.heldBy[0]).toBe(0);
    expect(turn({ voltage_V: 60, current_A: 600 })).toBe(0);
    expect(memory.heldBy[0]).toBe(4);
  });

  it('commands nothing while its shelf stands, and forgets', () => {
    const { memory, turn } = loop({});
    for (let n = 0; n < 400; n++) expect(turn({ isRunning: false, current_A: 0 })).toBe(0);
    expect(Math.abs(memory.integral_A[0]!) + Math.abs(memory.filter_A[0]!)).toBeLessThan(1e-6);
  });

  it('loses the part of its memory that modules take along, and gains by none that come back', () => {
    const { memory, turn } = loop({ integral_gain_A_per_Vs: 1e-9, droop_ohm: 1e-9 });
    turn({ alive_ratio: 0.8 });
    expect(memory.integral_A[0]).toBeCloseTo(320, 3);
    turn({ alive_ratio: 1 });
    expect(memory.integral_A[0]).toBeCloseTo(320, 3);
  });

  it('commands whole quanta; what is less adds up', () => {
    const { turn } = loop({ loop_command_quantum_A: 8 });
    const given = Array.from({ length: 40 }, () => turn({ voltage_V: 49.999 }));
    expect(given.every((c) => c % 8 === 0)).toBe(true);
    expect([given[0], given.at(-1)]).toEqual([400, 400]);
    const later = Array.from({ length: 400 }, () => turn({ voltage_V: 49.999 }));
    // 1 mV asks for K_i 1 mV = 0.32 A in every millisecond: 22 ms make 7.04 A, which is nearer to one quantum than to none.
    expect(later.at(-1)).toBe(408);
  });
});
