/**
 * Procedures of the battery laboratory, run inside the simulator: a pack behind a stage that does not run, its
 * current set by the tester once a step so that the pack's own current is what the procedure asks for.
 *
 * Sources
 * - Thevenin cell v = OCV(z) − R0 i − v1, dv1/dt = (R1 i − v1)/(R1 C1), and how R0, R1 and C1 are read off a pulse:
 *   G. L. Plett, Battery Management Systems, vol. I (Artech House, 2015), chapter 2. Its worked identification: 5 A
 *   switched off, at once 41 mV (R0 8.2 mΩ), in the end 120 mV (R1 15.8 mΩ), C1 38 kF.
 * - d.c. internal resistance: IEC 61960-3, 0.2 I_t for 10 s, then 1.0 I_t for 1 s, R = (U1 − U2)/(I2 − I1).
 * - A step of the Thevenin cell in closed form: 3.7 V, 0.1 Ω, 0.05 Ω with 200 F, 2 A for 5 s.
 *
 * Tolerances: 1 % on what a procedure reads, which is what laboratories promise; 1e-4 against closed forms, for the
 * tester sets its current once a step and the stage follows within a few.
 */
import { describe, expect, it } from 'vitest';
import { Circuit } from './circuit.ts';
import { published } from './published.ts';

interface Cell {
  readonly openCircuit_V: readonly number[];
  readonly z: number;
  readonly charge_C: number;
  readonly R0: number;
  readonly R1: number;
  readonly tau_s: number;
}

/** A bench with one pack on it. */
class Bench {
  private readonly circuit: Circuit;
  private readonly lag_s: number;
  /** Energy out of the terminals, and what R0 has turned into heat [J]. */
  out_J = 0;
  heat_J = 0;

  constructor(cell: Cell, step_s: number) {
    this.lag_s = 4 * step_s;
    this.circuit = new Circuit(
      {
        nodes: 1,
        held: [{ node: 0, voltage_V: cell.openCircuit_V[2]! }],
        stages: [
          {
            node: 0,
            setPoint_V: 1,
            proportional_gain_A_per_V: 1,
            integral_gain_A_per_Vs: 1,
            droop_ohm: 1,
            droop_filter_time_s: 1,
            current_lag_s: this.lag_s,
            control_delay_s: 0,
            slew_limit_A_per_s: 1e9,
            rated_A: 1,
            foldBack_V: 1,
          },
        ],
        packs: [
          {
            charge_C: cell.charge_C,
            efficiency_ratio: 1,
            openCircuit_V: cell.openCircuit_V,
            resistance_ohm: cell.R0,
            polarisation_ohm: cell.R1,
            polarisation_time_s: cell.tau_s,
            thermal_resistance_K_per_W: 0,
            thermal_time_s: 1,
            ambient_degC: 25,
            charge_ratio: cell.z,
          },
        ],
      },
      step_s,
    );
    this.circuit.network.stages.running[0] = 0;
  }

  private reading(): { readonly v: number; readonly i: number } {
    const { packs } = this.circuit.network;
    const { x0, v0 } = this.circuit.stepper;
    const p = packs.power_W(0, x0, v0);
    const [z, v1] = [x0[packs.offset]!, x0[packs.offset + 1]!];
    return { v: packs.terminal_V(0, p, z, v1), i: packs.current_A(0, p, z, v1) };
  }

  get terminal_V(): number {
    return this.reading().v;
  }

  get current_A(): number {
    return this.reading().i;
  }

  get charge(): number {
    return this.circuit.stepper.x0[this.circuit.network.packs.offset]!;
  }

  /** Holds the pack's current for a time. */
  hold(current_A: number, time_s: number): void {
    const { circuit } = this;
    const { stages } = circuit.network;
    const end = circuit.time_s + time_s;
    while (circuit.time_s < end - circuit.step_s / 2) {
      const before = this.reading();
      stages.rest_A[0] = (current_A * before.v) / circuit.voltage(0);
      circuit.step();
      const after = this.reading();
      this.out_J += ((before.v * before.i + after.v * after.i) / 2) * circuit.step_s;
    }
  }

  /** Switches to a current: long enough for the stage to have followed, short against every pack. */
  switchTo(current_A: number): void {
    this.hold(current_A, 10 * this.lag_s);
  }
}

const plett = 'Plett, Battery Management Systems, vol. I, ch. 2';
const identified = published({ what: 'pulse on a Thevenin cell: R0, R1, τ read off it', source: plett });
const worked = published({
  what: 'worked identification of a cell, 5 A switched off',
  source: plett,
  unit: 'V',
});
const resistance = published({
  what: 'd.c. resistance of a pack by two currents',
  source: 'IEC 61960-3, procedure; the value in closed form',
  unit: 'Ω',
});
const step = published({ what: 'drop of a Thevenin cell after a pulse', source: 'closed form', unit: 'V' });
const energy = published({
  what: 'energy out of a pack: Q ∫ OCV dz less R0, R1 and C1',
  source: 'energy balance, closed form',
  unit: 'J',
});

/** The packs of the reference cabinet's battery shelf, six side by side. */
const shelf: Cell = {
  openCircuit_V: [0.86, 0.94, 1, 1.05, 1.1].map((ratio) => 48 * ratio),
  z: 0.8,
  charge_C: 375e3,
  R0: 8e-3 / 6,
  R1: 4e-3 / 6,
  tau_s: 30,
};

const aged: Cell = { ...shelf, R0: 1.7 * shelf.R0, R1: 1.7 * shelf.R1 };
const single: Cell = {
  openCircuit_V: [3, 3.4, 3.6, 3.9, 4.1],
  z: 0.6,
  charge_C: 180e3,
  R0: 8.2e-3,
  R1: 15.8e-3,
  tau_s: 600.4,
};

describe('the laboratory recovers what a pack was made of', () => {
  it.each([
    { name: 'the reference shelf, 300 A', cell: shelf, current: 300, step_s: 0.01 },
    { name: 'the same aged, 300 A', cell: aged, current: 300, step_s: 0.01 },
    { name: 'a cell of 3.6 V, 5 A', cell: single, current: 5, step_s: 0.2 },
  ])(
    '$name: R0, R1 and τ within 1 % from a pulse and the rest after it',
    ({ name, cell, current, step_s }) => {
      const bench = new Bench(cell, step_s);
      const pulse_s = Math.round(5 * cell.tau_s);
      bench.hold(current, pulse_s);
      const loaded = bench.terminal_V;
      const before = bench.current_A;
      bench.switchTo(0);
      const jumped = bench.terminal_V;
      // At rest the charge stands still: what comes back now is polarisation alone.
      bench.hold(0, cell.tau_s);
      const half = bench.terminal_V;
      bench.hold(0, cell.tau_s);
      const later = bench.terminal_V;
      bench.hold(0, 10 * cell.tau_s);
      const rested = bench.terminal_V;
      const tau = cell.tau_s / Math.log((rested - half) / (rested - later));
      // A little has come back while the current fell: the exponential is drawn back to the middle of the switch.
      const R1 =
        ((rested - jumped) * Math.exp((10 * 4 * step_s) / tau)) / (before * (1 - Math.exp(-pulse_s / tau)));
      const R0 = (rested - loaded) / before - R1 * (1 - Math.exp(-pulse_s / tau));
      identified({ which: `${name}: R0`, expected: cell.R0, found: R0, tolerance: 0.01 });
      identified({ which: `${name}: R1`, expected: cell.R1, found: R1, tolerance: 0.01 });
      identified({ which: `${name}: τ`, expected: cell.tau_s, found: tau, tolerance: 0.01 });
    },
  );

  it('finds the worked identification: 41 mV at once, 120 mV in the end', () => {
    const R0 = 8.2e-3;
    const R1 = 15.8e-3;
    // So large that 5 A for an hour leave its voltage where it was.
    const cell = { openCircuit_V: [4, 4, 4, 4, 4], z: 0.5, charge_C: 1e9, R0, R1, tau_s: R1 * 38e3 };
    const bench = new Bench(cell, 0.05);
    bench.hold(5, 12 * cell.tau_s);
    const loaded = bench.terminal_V;
    bench.switchTo(0);
    worked({ which: 'at once', expected: 0.041, found: bench.terminal_V - loaded, tolerance: 0.01 });
    bench.hold(0, 10 - 2);
    worked({ which: 'after 10 s', expected: 0.042305, found: bench.terminal_V - loaded, tolerance: 0.01 });
    bench.hold(0, 12 * cell.tau_s);
    worked({ which: 'in the end', expected: 0.12, found: bench.terminal_V - loaded, tolerance: 1e-3 });
  });

  it('drops by 0.239 V after 5 s of 2 A, as the closed form has it', () => {
    const cell = {
      openCircuit_V: [3.7, 3.7, 3.7, 3.7, 3.7],
      z: 0.5,
      charge_C: 1e9,
      R0: 0.1,
      R1: 0.05,
      tau_s: 10,
    };
    const bench = new Bench(cell, 1e-3);
    bench.hold(2, 5);
    step({
      which: '2 A for 5 s',
      expected: 0.2 + 0.1 * (1 - Math.exp(-0.5)),
      found: 3.7 - bench.terminal_V,
      tolerance: 1e-3,
    });
  });

  it('measures the d.c. resistance that the two currents of the standard show', () => {
    const bench = new Bench(shelf, 2e-3);
    const [I1, I2] = [0.2, 1].map((share) => (share * shelf.charge_C) / 3600);
    bench.hold(I1!, 10);
    const [U1, i1] = [bench.terminal_V, bench.current_A];
    bench.hold(I2!, 1);
    const [U2, i2] = [bench.terminal_V, bench.current_A];
    const { R0, R1, tau_s, charge_C } = shelf;
    const polarised1 = I1! * R1 * (1 - Math.exp(-10 / tau_s));
    const polarised2 = polarised1 * Math.exp(-1 / tau_s) + I2! * R1 * (1 - Math.exp(-1 / tau_s));
    // Between half and nine tenths of the charge the curve rises by 0.05 of 48 V.
    const slope = (0.05 * 48) / 0.4;
    const fallen = (slope * I2!) / charge_C;
    const expected = (R0 * (I2! - I1!) + polarised2 - polarised1 + fallen) / (I2! - I1!);
    resistance({ which: 'reference shelf', expected, found: (U1 - U2) / (i2 - i1), tolerance: 2e-3 });
    expect(expected / R0).toBeGreaterThan(1);
  });

  it('gives out Q ∫ OCV dz less what its resistances take', () => {
    const bench = new Bench({ ...shelf, z: 0.9 }, 5e-3);
    const I = 400;
    const time_s = 200;
    bench.hold(I, time_s);
    const { R0, R1, tau_s, charge_C } = shelf;
    const taken = (I * time_s) / charge_C;
    expect(bench.charge).toBeCloseTo(0.9 - taken, 4);
    // From 0.9 down the curve falls straight from 1.05 of 48 V.
    const mean_V = 48 * 1.05 - ((0.05 * 48) / 0.4) * (taken / 2);
    const inR0 = R0 * I * I * time_s;
    // ∫ v1 I dt = I² R1 (t − τ (1 − e^(−t/τ))): heat of R1 and what C1 holds, together.
    const inR1 = I * I * R1 * (time_s - tau_s * (1 - Math.exp(-time_s / tau_s)));
    energy({
      which: '400 A for 200 s',
      expected: mean_V * I * time_s - inR0 - inR1,
      found: bench.out_J,
      tolerance: 2e-4,
    });
  });
});
