/**
 * Every kind's companion step against the equations of the same kind:
 *   x1 − x0 − p flow(x0, v0) − q flow(x1, v1) = 0,
 * with p = q half the step, and with the weights of damped steps, in every branch of every clamp, and the currents into every node sum to zero at the end of the step.
 *
 * Tolerances: rounding, 1e-9 of the largest term (sums of a few terms of up to 1e4 times the result). Three
 * states are not solved to rounding and say so in their files: a tray's capacitor (one corrector), an intake's
 * bulk (stepped in energy) and its loop (two correctors); theirs is the order of what is left out. Node
 * currents: what constant-power devices may be off by, 1 mA a device, at most two at a node.
 */
import { describe, expect, it } from 'vitest';
import type { Device } from '../../src/devices/device.ts';
import { stageMode } from '../../src/devices/stage/stage.ts';
import { type Cabinet, ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';

const rounding = 1e-9;
const node_A = 2e-3;

/** A settled cabinet at 200 kW. Without a sensing delay its states stand idle, so every stage is given one. */
function cabinet(power = '200 kW', loop_period = '0 us'): Cabinet {
  const scenario = shippedWith('idle', {
    'load.power': power,
    'batteries.control_delay': '30 us',
    'shelves.loop_period': loop_period,
  });
  return ready(assemble(scenario), makeDemand(scenario), 1);
}

/** Takes one step and gives the defect of every state, over the largest of its three terms (or 1). */
function step(
  c: Cabinet,
  ticks: number,
  rungTicks = ticks,
): (device: Device, state: number, unit: number) => number {
  const { stepper, network } = c;
  const { x0, v0, x1, v1 } = stepper;
  expect(stepper.take(0, ticks, rungTicks)).toBe('done');
  const { stages, sleds, devices } = network;
  const q = (rungTicks * network.scenario.tick_s) / 2;
  const p = ticks * network.scenario.tick_s - q;
  // Inputs of the equations at both ends: the stages' limits and the sleds' demand.
  const limit0 = stages.limit0_A.slice();
  const limit1 = stages.limit1_A.slice();
  const before = new Float64Array(x0.length);
  const after = new Float64Array(x0.length);
  for (const device of devices) device.flow(before, x0, v0);
  sleds.demand0_W.set(sleds.demand1_W);
  stages.limit0_A.set(limit1);
  for (const device of devices) device.flow(after, x1, v1);
  stages.limit0_A.set(limit0);
  return (device, state, unit) => {
    const o = device.offset + state * device.count + unit;
    const change = p * before[o]! + q * after[o]!;
    const scale = Math.max(
      Math.abs(x0[o]!),
      Math.abs(x1[o]!),
      Math.abs(p * before[o]!),
      Math.abs(q * after[o]!),
      1,
    );
    return Math.abs(x1[o]! - x0[o]! - change) / scale;
  };
}

/** Largest sum of currents into a node at the end of the step [A]. */
function imbalance(c: Cabinet): number {
  const { stepper, network } = c;
  const into = new Float64Array(network.nodeCount);
  for (const device of network.devices) device.inject(into, stepper.x1, stepper.v1);
  return into.reduce((most, i) => Math.max(most, Math.abs(i)), 0);
}

/** Largest defect over all states of some kinds. */
function worst(defect: ReturnType<typeof step>, devices: readonly Device[]): number {
  let most = 0;
  for (const device of devices) {
    for (let s = 0; s < device.states.length; s++) {
      for (let k = 0; k < device.count; k++) most = Math.max(most, defect(device, s, k));
    }
  }
  return most;
}

describe('one step equals the trapezoid of the equations', () => {
  it.each([
    ['at every length of step', [1, 20, 200, 1000].map((ticks) => [ticks, ticks] as const)],
    [
      'with weights of both steps of a damped pair',
      [
        [59, 118],
        [141, 118],
        [586, 1172],
        [1414, 1172],
      ] as const,
    ],
  ])('for all kinds away from rest, %s', (_, steps) => {
    for (const [ticks, rungTicks] of steps) {
      const c = cabinet();
      const { bars, capacitors, banks, stages, trays, sleds, packs, sensor, intakes } = c.network;
      const { x0 } = c.stepper;
      for (let k = 0; k < trays.count; k++) {
        x0[trays.offset + k]! += 300 * (k - 4);
        trays.command_W[k] = x0[trays.offset + k]! + 500;
      }
      for (let k = 0; k < sleds.count; k++) x0[sleds.offset + k]! -= 100 * k;
      for (let k = 0; k < bars.count; k++) x0[bars.offset + k]! += (k % 5) - 2;
      for (let k = 0; k < banks.count; k++) x0[banks.offset + k]! += 10;
      x0[sensor.offset]! += 1e3;
      for (let k = 0; k < intakes.count; k++) x0[intakes.offset + k]! -= 0.5;
      const defect = step(c, ticks, rungTicks);
      for (const kind of [bars, capacitors, banks, stages, sleds, packs, sensor]) {
        expect(
          worst(defect, [kind]),
          `${kind.kind} over ${ticks} ticks on the rung of ${rungTicks}`,
        ).toBeLessThan(rounding);
      }
      for (let k = 0; k < trays.count; k++) expect(defect(trays, 0, k)).toBeLessThan(rounding);
      expect(imbalance(c)).toBeLessThan(node_A);
    }
  });

  it('for a tray ramping at its slew limit, up and down', () => {
    const c = cabinet();
    const { trays } = c.network;
    for (let k = 0; k < trays.count; k++) trays.command_W[k] = k % 2 === 0 ? 19e3 : -19e3;
    const defect = step(c, 20);
    const { x0, x1 } = c.stepper;
    for (let k = 0; k < trays.count; k++) {
      expect(defect(trays, 0, k)).toBeLessThan(rounding);
      const rate = (x1[trays.offset + k]! - x0[trays.offset + k]!) / 5e-6;
      expect(rate / trays.columns.power_slew_W_per_s[k]!).toBeCloseTo(k % 2 === 0 ? 1 : -1, 9);
    }
    expect(imbalance(c)).toBeLessThan(node_A);
  });

  it("for a tray's capacitor and an intake's loop, to the order of what they leave out", () => {
    const c = cabinet();
    const { trays, intakes } = c.network;
    const { x0 } = c.stepper;
    for (let k = 0; k < trays.count; k++) {
      x0[trays.offset + k] = 15e3;
      trays.command_W[k] = 15e3;
    }
    for (let k = 0; k < intakes.count; k++) {
      x0[intakes.offset + k]! -= 3;
      x0[intakes.offset + 2 * intakes.count + k]! -= 2e3;
    }
    const defect = step(c, 200);
    // Capacitor: h² times slope's own change, 50 µs against seconds. Bulk in energy: (Δv/v)² of 420 V.
    for (let k = 0; k < trays.count; k++) expect(defect(trays, 1, k)).toBeLessThan(1e-9);
    for (let k = 0; k < intakes.count; k++) {
      expect(defect(intakes, 0, k)).toBeLessThan(1e-7);
      expect(defect(intakes, 1, k)).toBeLessThan(1e-5);
      expect(defect(intakes, 2, k)).toBeLessThan(1e-4);
    }
  });

  it('for an intake without AC, at its power limit, and walking in', () => {
    const c = cabinet();
    const { intakes } = c.network;
    const { x0 } = c.stepper;
    const n = intakes.count;
    intakes.present[0] = 0;
    x0[intakes.offset + 1] = 380;
    x0[intakes.offset + n + 1]! += 30e3;
    intakes.walking[2] = 1;
    x0[intakes.offset + 3 * n + 2] = 10e3;
    const defect = step(c, 200);
    for (const k of [0, 1, 2]) {
      expect(defect(intakes, 1, k)).toBeLessThan(rounding);
      expect(defect(intakes, 2, k)).toBeLessThan(rounding);
      expect(defect(intakes, 3, k)).toBeLessThan(rounding);
    }
  });
});

describe('every branch of the output stage', () => {
  /** Moves stage 0 so that one branch holds at the end of a step, then checks all five states. */
  function inBranch(
    mode: number,
    ticks: number,
    move: (c: Cabinet, offset: number) => void,
    c = cabinet(),
  ): void {
    const { stages } = c.network;
    move(c, stages.offset);
    const defect = step(c, ticks);
    expect(stages.mode[0]).toBe(mode);
    // Without a delay the first of its states is the voltage, which no equation moves.
    const moved = stages.states.map((_, s) => s).filter((s) => s !== 3 || stages.delay_s[0]! > 0);
    for (const s of moved) expect(defect(stages, s, 0)).toBeLessThan(rounding);
    expect(imbalance(c)).toBeLessThan(node_A);
  }

  it('linear', () => {
    inBranch(stageMode.linear, 20, (c) => {
      c.network.stages.trim_V[0]! += 0.02;
    });
  });

  it('rising at the slew limit', () => {
    inBranch(stageMode.slewUp, 20, (c) => {
      c.network.stages.setPoint_V[0]! += 2;
    });
  });

  it('falling at the slew limit', () => {
    inBranch(stageMode.slewDown, 20, (c) => {
      c.network.stages.setPoint_V[0]! -= 2;
    });
  });

  it('at its current limit', () => {
    inBranch(stageMode.limit, 20, (c, o) => {
      const { stages } = c.network;
      c.stepper.x0[o] = stages.limit0_A[0]!;
      c.stepper.x0[o + stages.count] = stages.limit0_A[0]!;
      stages.setPoint_V[0]! += 1;
    });
  });

  it('at zero current', () => {
    inBranch(stageMode.zero, 20, (c, o) => {
      c.stepper.x0[o] = 5;
      c.stepper.x0[o + c.network.stages.count] = -400;
      c.network.stages.setPoint_V[0]! -= 2;
    });
  });

  it.each([
    ['commanded', stageMode.linear],
    ['commanded, held by its limit as its firmware says', stageMode.limit],
  ])('%s', (_, mode) => {
    const c = cabinet('200 kW', '50 us');
    const { stages } = c.network;
    const start = stages.current_A(0, c.stepper.x0);
    inBranch(
      mode,
      20,
      () => {
        stages.command_A[0]! += 40;
        stages.mode[0] = mode;
      },
      c,
    );
    // 5 µs of a lag of 20 µs, by the trapezoidal rule: q = 0.125, 2q/(1 + q).
    expect(stages.current_A(0, c.stepper.x1) - start).toBeCloseTo((40 * 0.25) / 1.125, 9);
    expect(c.stepper.x1.slice(stages.offset + stages.count).slice(0, 1)).toEqual(
      c.stepper.x0.slice(stages.offset + stages.count).slice(0, 1),
    );
  });

  it('off, its current dying', () => {
    inBranch(stageMode.off, 20, (c) => {
      c.network.stages.running[0] = 0;
    });
  });
});

describe('other branches', () => {
  it('a sled below its constant-power voltage is a resistance, and the step stays consistent', () => {
    const c = cabinet();
    const { sleds, capacitors } = c.network;
    const { x0 } = c.stepper;
    // The input capacitors of sled 1 hold 40 V: its node lies below V_cc = 44 V for the whole step.
    for (let k = 0; k < capacitors.count; k++) {
      if (capacitors.node[k] === sleds.node[0]) x0[capacitors.offset + k] = 40;
    }
    c.stepper.v0[sleds.node[0]!] = 40;
    const defect = step(c, 1);
    const v = c.stepper.v1[sleds.node[0]!]!;
    expect(v).toBeLessThan(sleds.columns.constant_power_voltage_V[0]!);
    const P = c.stepper.x1[sleds.offset]!;
    expect(sleds.drawn_A(0, P, v)).toBeCloseTo((P * v) / 44 ** 2, 9);
    expect(defect(sleds, 0, 0)).toBeLessThan(rounding);
    expect(imbalance(c)).toBeLessThan(node_A);
  });

  it('an open bar lets its current die and no longer couples its nodes', () => {
    const c = cabinet();
    const { bars } = c.network;
    const k = bars.names.indexOf('LA1');
    bars.setOpen(k, true);
    c.stepper.restamp();
    const defect = step(c, 20);
    expect(c.stepper.x0[bars.offset + k]!).toBeGreaterThan(100);
    // The trapezoid's own factor for one time constant of 100 µs over 5 µs: (1 − 1/40)/(1 + 1/40).
    const ratio = c.stepper.x1[bars.offset + k]! / c.stepper.x0[bars.offset + k]!;
    expect(ratio).toBeCloseTo((1 - 1 / 40) / (1 + 1 / 40), 12);
    expect(worst(defect, [bars])).toBeLessThan(rounding);
    expect(imbalance(c)).toBeLessThan(node_A);
  });
});
