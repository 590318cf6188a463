/**
 * Banks with a slow branch beside their capacitance against closed forms. C at once, C_s behind R_s, both beside one another
 * behind R; τ' = R_s C C_s/(C + C_s), d = u_s − u:
 *
 * - Constant current I from rest: d = (I τ'/C)(1 − e^(−t/τ')), u = U − (I t + C_s d)/(C + C_s); the terminals show u − I R.
 * - Left alone: d = d_0 e^(−t/τ'), C u + C_s u_s stays.
 * - Impedance of the two-branch circuit: Z = R + 1/(jωC + 1/(R_s + 1/(jωC_s))).
 * - IEC 62391-1:2006, discharge at constant current between 0.8 and 0.4 U_R, class 3 (4 C U_R mA): the whole, C + C_s. From memory.
 *
 * Two-branch model: textbook. Tolerances: the trapezoid's own at the steps taken; the impedance to rounding of differences.
 */
import { describe, expect, test } from 'vitest';
import { type Complex, over } from '../../src/linear/complex.ts';
import { inverseOf } from '../../src/linear/complex-matrix.ts';
import type { Entries } from '../../src/linear/entries.ts';
import { differentiate } from '../../src/linear/jacobian.ts';
import { Circuit } from './circuit.ts';
import { published } from './published.ts';

const steps = published({
  what: 'terminals of a two-branch bank after a step of current',
  source: 'closed form',
  unit: 'V',
});
const levelling = published({
  what: 'a two-branch bank left alone',
  source: 'closed form',
  unit: 'V',
});
const impedances = published({ what: 'impedance of a two-branch bank', source: 'closed form', unit: 'Ω' });
const whole = published({
  what: 'capacitance of a two-branch bank by discharge at constant current',
  source: 'IEC 62391-1:2006',
  unit: 'F',
});

/** A tray's bank, a tenth of 162.5 F slow with 1.5 s. */
const [C, Cs, R, tau] = [146.25, 16.25, 2.4e-3, 1.5];
const Rs = tau / Cs;
const own_s = (Rs * C * Cs) / (C + Cs);

/** The bank under a constant current, from rest at U. */
function drained(U: number, I: number, step_s: number): Circuit {
  const far = 1e9;
  return new Circuit(
    {
      nodes: 2,
      held: [{ node: 1, voltage_V: -I * far }],
      bars: [{ from: 0, to: 1, R: far, L: far * 1e-12, i: I }],
      banks: [{ node: 0, C, R, L: 1e-12, u: U, i: I }],
      bankBranch: { C: Cs, R: Rs, u: U },
      capacitors: [{ node: 0, C: 1e-9, r: 1e-6, u: U - I * R }],
    },
    step_s,
  );
}

test.each([0.1, 0.5, 1, 3, 10])('a step of 300 A, %d s after it', (t) => {
  const [U, I] = [43.2, 300];
  const c = drained(U, I, 1e-3);
  c.reach(t);
  const d = ((I * own_s) / C) * (1 - Math.exp(-t / own_s));
  const expected = U - (I * t + Cs * d) / (C + Cs) - I * R;
  steps({ which: `300 A, ${t} s`, expected, found: c.voltage(0), tolerance: 1e-6 });
});

test('beside the capacitance of a tray, left alone', () => {
  const [u, us] = [36, 40];
  const c = new Circuit(
    {
      nodes: 1,
      held: [{ node: 0, voltage_V: 50 }],
      trays: [
        {
          ...{ node: 0, power: 0, u, capacitance_F: C + Cs, fast_F: C, voltage_slope_ratio: 0, esr_ohm: R },
          ...{
            rated_voltage_V: 43.2,
            leakage_A: 0,
            voltage_low_V: 28.8,
            voltage_high_V: 43.2,
            taper_ratio: 0.05,
          },
          ...{ power_lag_s: 1e-3, power_slew_W_per_s: 1e9, efficiency_ratio: 1, standing_loss_W: 0 },
          ...{ dead_time_s: 0, trip_margin_ratio: 1, power_limit_W: 2e4, bus_current_limit_A: 420 },
          ...{ foldBack_V: 30, capacitor_current_limit_A: 760 },
        },
      ],
      trayBranch: { C: Cs, R: Rs, u: us },
    },
    1e-3,
  );
  const { trays, trayBranches } = c.network;
  for (const t of [0.2, 1, 5]) {
    c.reach(t);
    const d = (us - u) * Math.exp(-t / own_s);
    const level = (C * u + Cs * us) / (C + Cs);
    const which = `${t} s`;
    levelling({ which, expected: level - (Cs * d) / (C + Cs), found: c.state(trays, 1), tolerance: 1e-6 });
    levelling({
      which,
      expected: level + (C * d) / (C + Cs),
      found: c.state(trayBranches, 0),
      tolerance: 1e-6,
    });
  }
});

describe('the linear model', () => {
  test.each([0.1, 1, 10])('has the impedance of the circuit at %d Hz', (f) => {
    const c = drained(43.2, 0, 1e-3);
    const { network, stepper } = c;
    const { banks, bankBranches } = network;
    const scale = new Float64Array(network.stateCount).fill(1);
    const { fx, fv } = differentiate(network, stepper.x0, stepper.v0, scale);
    const slope = (slopes: Entries, row: number, column: number): number => {
      let found = 0;
      slopes.eachIn(column, (i, value) => {
        if (i === row) found = value;
      });
      return found;
    };
    const own = [
      banks.place('current_A', 0),
      banks.place('voltage_V', 0),
      bankBranches.place('voltage_V', 0),
    ];
    const w = 2 * Math.PI * f;
    // (jω − A) x = b v: the bank's current by the voltage at it; current is positive out of the bank.
    const resolvent = inverseOf(
      own.map((i) => own.map((j): Complex => ({ re: -slope(fx, i, j), im: i === j ? w : 0 }))),
    );
    const b = own.map((i) => slope(fv, i, 0));
    const sum = (part: 're' | 'im'): number => resolvent[0]!.reduce((all, z, k) => all + z[part] * b[k]!, 0);
    const found = over({ re: -1, im: 0 }, { re: sum('re'), im: sum('im') });
    // By hand: the branches' admittances added.
    const slow = over({ re: 1, im: 0 }, { re: Rs, im: -1 / (w * Cs) });
    const both = over({ re: 1, im: 0 }, { re: slow.re, im: slow.im + w * C });
    const expected = { re: R + both.re, im: both.im };
    const size = Math.hypot(expected.re, expected.im);
    impedances({
      which: `${f} Hz, real part`,
      expected: expected.re,
      found: found.re,
      tolerance: 1e-6,
      scale: size,
    });
    impedances({
      which: `${f} Hz, imaginary part`,
      expected: expected.im,
      found: found.im,
      tolerance: 1e-6,
      scale: size,
    });
  });
});

test('a slow discharge shows the whole capacitance, a pulse of 0.1 s what is there at once', () => {
  const U = 43.2;
  const I = 4e-3 * (C + Cs) * U;
  const c = drained(U, I, 5e-3);
  const at: number[] = [];
  for (const level of [0.8 * U, 0.4 * U]) {
    let before = c.voltage(0);
    do {
      before = c.voltage(0);
      c.step();
    } while (c.voltage(0) > level);
    at.push(c.time_s - (5e-3 * (level - c.voltage(0))) / (before - c.voltage(0)));
  }
  whole({ which: 'class 3', expected: C + Cs, found: (I * (at[1]! - at[0]!)) / (0.4 * U), tolerance: 1e-6 });
  const pulse = drained(U, I, 1e-4);
  pulse.reach(0.1);
  const shown = (I * 0.1) / (U - I * R - pulse.voltage(0));
  expect(shown / C).toBeGreaterThan(1);
  expect(shown / C).toBeLessThan(1.01);
});
