/**
 * The stability boundary of constant power behind R, L and C, seen in time: started 0.1 % off equilibrium, a swing
 * decays at 0.95 of the boundary and grows at 1.05 of it, at the rate and the frequency of the characteristic
 * s² + (R/L − P/(C v²)) s + (1 − R P/v²)/(L C).
 * Source: R. D. Middlebrook, IEEE Industry Applications Society Annual Meeting, 1976; A. Emadi et al., IEEE
 * Trans. Vehicular Technology 55(4), 2006; rates and frequencies follow from the characteristic by hand.
 *
 * Tolerances: 500 steps per period shift the frequency by (2π/500)²/12, 1e-5; swings of 0.1 % bend it and the rate by
 * some 1e-4 of the angular frequency.
 */
import { describe, expect, it } from 'vitest';
import { Circuit, ideal } from './circuit.ts';
import { published } from './published.ts';

// E [V], R [mΩ], L [µH], C [mF], P_crit [W]
const rows = [
  [54, 2, 1, 10, 53920.118],
  [50, 1, 2, 20, 24507.401],
  [48, 5, 5, 2, 4517.204],
  [54, 5, 5, 1, 2887.057],
  [100, 100, 1000, 1, 980.296],
] as const;

const source = 'Middlebrook 1976; Emadi et al. 2006';
const frequencies = published({
  what: 'constant power beside its boundary, swing in time',
  source,
  unit: 'Hz',
});
const rates = published({
  what: 'constant power beside its boundary, decay or growth in time',
  source,
  unit: '1/s',
});

const periods = 20;
const stepsPerPeriod = 500;

/** Swing of the node about equilibrium: frequency and rate between the first and the last upward crossings. */
function seen(E: number, R: number, L: number, C: number, P: number) {
  const v = (E + Math.sqrt(E * E - 4 * R * P)) / 2;
  const omega2 = (1 - (R * P) / (v * v)) / (L * C);
  const half = (R / L - P / (C * v * v)) / 2;
  const expected = { rate: -half, frequency: Math.sqrt(omega2 - half * half) / (2 * Math.PI) };
  const step = 1 / (expected.frequency * stepsPerPeriod);
  const c = new Circuit(
    {
      nodes: 2,
      held: [{ node: 0, voltage_V: E }],
      bars: [{ from: 0, to: 1, R, L, i: P / v }],
      capacitors: [{ node: 1, C, r: ideal * R, u: v * 1.001 }],
      loads: [{ node: 1, power_W: P }],
    },
    step,
  );
  const crossings: number[] = [];
  const peaks: number[] = [];
  let before = c.voltage(1) - v;
  let highest = 0;
  for (let k = 0; k < (periods + 1) * stepsPerPeriod; k++) {
    c.step();
    const now = c.voltage(1) - v;
    highest = Math.max(highest, now);
    if (before < 0 && now >= 0) crossings.push(c.time_s - (step * now) / (now - before));
    if (before >= 0 && now < 0) {
      peaks.push(highest);
      highest = 0;
    }
    before = now;
  }
  const span = crossings.at(-1)! - crossings[0]!;
  // The first peak is the start itself, not a peak of the swing.
  const whole = peaks.slice(1, crossings.length);
  return {
    expected,
    frequency: (crossings.length - 1) / span,
    rate: Math.log(whole.at(-1)! / whole[0]!) / ((whole.length - 1) / expected.frequency),
  };
}

describe('a constant power behind R, L and C, in time', () => {
  it.each(rows)('E %d V, %d mΩ, %d µH, %d mF: decays below the boundary, grows above', (E, R, L, C, P) => {
    for (const factor of [0.95, 1.05]) {
      const { expected, frequency, rate } = seen(E, R * 1e-3, L * 1e-6, C * 1e-3, factor * P);
      const which = `${E} V, ${R} mΩ, ${L} µH, ${C} mF at ${factor}`;
      expect(Math.sign(rate), which).toBe(factor < 1 ? -1 : 1);
      frequencies({ which, expected: expected.frequency, found: frequency, tolerance: 1e-4 });
      rates({ which, expected: expected.rate, found: rate, tolerance: 0.02 });
    }
  });
});
