/**
 * Undershoot of a bus held by a PI voltage loop with ζ = 1, crossover ω_c and capacitance C: K_p = ω_c C,
 * K_i = ω_c² C/4. A load step dips it by (2/e) dI/(ω_c C), 2/ω_c after the step; a long ramp holds it
 * (dI/t_r) 4/(ω_c² C) below. Derived by hand from s C v = −K_p v − K_i v/s − I (no outside source).
 *
 * Tolerance: the current follows its command with a lag of a thousandth of 1/ω_c.
 */
import { describe, it } from 'vitest';
import { Circuit, ideal } from './circuit.ts';
import { published } from './published.ts';

const dips = published({
  what: 'undershoot of a PI loop under a step and a ramp of load',
  source: 'second-order loop, by hand',
  unit: 'V',
});
const moments = published({
  what: 'time of the undershoot, 2/ω_c',
  source: 'second-order loop, by hand',
  unit: 's',
});

/** A current sink: a node held far below zero behind as many ohms as volts. */
const far_ohm = 1e6;

/** Lowest voltage below the set point and its time after `load_A` begins; the load is a function of time. */
function dip(omega: number, C: number, load_A: (t: number) => number, look_s: number) {
  const step = 1 / (omega * 2000);
  const set_V = 50;
  const c = new Circuit(
    {
      nodes: 2,
      held: [{ node: 1, voltage_V: set_V - 100 * far_ohm }],
      bars: [{ from: 0, to: 1, R: far_ohm, L: far_ohm * 1e-12, i: 100 }],
      capacitors: [{ node: 0, C, r: ideal, u: set_V }],
      stages: [
        {
          node: 0,
          setPoint_V: set_V,
          proportional_gain_A_per_V: omega * C,
          integral_gain_A_per_Vs: (omega * omega * C) / 4,
          droop_ohm: 0,
          droop_filter_time_s: 1e-3,
          current_lag_s: 1e-3 / omega,
          control_delay_s: 0,
          slew_limit_A_per_s: 1e12,
          rated_A: 1000,
          foldBack_V: 30,
        },
      ],
    },
    step,
  );
  c.reach(40 / omega);
  const rest = c.voltage(0);
  const { capacitors } = c.network;
  const from = c.time_s;
  const found = { depth: 0, after: 0, last: 0 };
  while (c.time_s < from + look_s) {
    c.stepper.x0[capacitors.offset + 1] = rest - far_ohm * (100 + load_A(c.time_s - from));
    c.stepper.v0[1] = c.stepper.x0[capacitors.offset + 1]!;
    c.stepper.forget();
    c.step();
    found.last = rest - c.voltage(0);
    if (found.last > found.depth) {
      found.depth = found.last;
      found.after = c.time_s - from;
    }
  }
  return found;
}

describe('the undershoot of a PI loop with ζ = 1', () => {
  it.each([
    [2 * Math.PI * 740, 59e-3, 400],
    [2 * Math.PI * 1000, 0.1, 1000],
    [2 * Math.PI * 300, 20e-3, 50],
  ])('ω_c %d, C %d, a step of %d A', (omega, C, dI) => {
    const which = `${Math.round(omega / (2 * Math.PI))} Hz, ${1e3 * C} mF, ${dI} A`;
    const { depth, after } = dip(omega, C, () => dI, 6 / omega);
    dips({
      which: `${which} at once`,
      expected: ((2 / Math.E) * dI) / (omega * C),
      found: depth,
      tolerance: 3e-3,
    });
    moments({ which, expected: 2 / omega, found: after, tolerance: 5e-3 });
    const ramp_s = 60 / omega;
    const { last } = dip(omega, C, (t) => (dI * t) / ramp_s, ramp_s);
    dips({
      which: `${which} over ${(1e3 * ramp_s).toPrecision(3)} ms`,
      expected: ((dI / ramp_s) * 4) / (omega * omega * C),
      found: last,
      tolerance: 3e-3,
    });
  });
});
