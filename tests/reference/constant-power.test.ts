/**
 * Constant power: a capacitor with series resistance that gives it (the tray's capacitor), and a supply with a
 * filter that has to (a sled on a bar).
 *
 * Discharge: C dv/dt = −i, (v − i R) i = P has the closed form
 *   t = (C/4P)(V0² − V1² + V0 s0 − V1 s1) + C R ln((V1 + s1)/(V0 + s0)),  s = √(V² − 4 P R);
 * the table's numbers agree with it to 7 digits and with a separate integration. Tolerance 1e-6 of the time.
 *
 * Supply E behind R and L, C and P at its end: stable below P_crit = R C v*²/L with v* = E/(1 + R² C/L), as in
 * R. D. Middlebrook, IEEE IAS Annual Meeting 1976 (impedance criterion); arithmetic from the characteristic
 * equation s² + (R/L − P/(C v²)) s + (1/LC)(1 − R P/v²). Tolerance on the growth rate: 0.5 %, for 600 steps a
 * period move it by 0.2 % (it is a fortieth of the two terms it is the difference of).
 */
import { describe, expect, it } from 'vitest';
import { Circuit, ideal } from './circuit.ts';

const tray = {
  voltageSlope: 0,
  rated_V: 50,
  leakage_A: 0,
  low_V: 1,
  high_V: 60,
  lag_s: 1e-3,
  slew_W_per_s: 1e9,
  efficiency: 1,
  standing_W: 0,
  power_W: 1e6,
  busCurrent_A: 1e6,
  capacitorCurrent_A: 1e6,
  taper: 0,
} as const;

interface Discharge {
  readonly V0: number;
  readonly V1: number;
  readonly P: number;
  readonly C: number;
  readonly R: number;
}

/** Steps a tray that gives P from V0 until it passes V1. */
function discharge({ V0, V1, P, C, R }: Discharge, expected_s: number) {
  const circuit = new Circuit(
    {
      nodes: 1,
      held: [{ node: 0, voltage_V: 50 }],
      trays: [{ ...tray, node: 0, capacitance_F: C, esr_ohm: R, power: P, u: V0 }],
    },
    expected_s / 20_000,
  );
  const { trays } = circuit.network;
  let u = V0;
  let i = trays.capacitorCurrent_A(0, P, V0);
  const first = i;
  let loss = 0;
  for (;;) {
    circuit.step();
    const next = circuit.state(trays, 1);
    const iNext = trays.capacitorCurrent_A(0, P, next);
    if (next <= V1) {
      const along = (u - V1) / (u - next);
      const iEnd = trays.capacitorCurrent_A(0, P, V1);
      loss += (along * circuit.step_s * R * (i * i + iEnd * iEnd)) / 2;
      return { time_s: circuit.time_s - (1 - along) * circuit.step_s, first, last: iEnd, loss };
    }
    loss += (circuit.step_s * R * (i * i + iNext * iNext)) / 2;
    u = next;
    i = iNext;
  }
}

describe("a tray's capacitor at constant power", () => {
  it.each([
    // V0, V1, P, C, R mΩ, t, terminal voltage at start and end, current at start and end, loss in R
    [54, 40, 10000, 30, 5, 1.927872, 53.057628, 38.708287, 188.474, 258.343, 461.28],
    [48, 24, 5000, 165, 6.3, 27.76854, 47.334524, 22.606602, 105.631, 221.174, 3717.3],
    [51, 45, 12000, 10, 4, 0.234884, 50.040782, 43.906775, 239.804, 273.306, 61.39],
    [50, 46, 15000, 20, 3, 0.250895, 49.083189, 45.0, 305.604, 333.333, 76.57],
    [2.7, 1.35, 100, 3000, 0.29, 81.404164, 2.689216, 1.328165, 37.186, 75.292, 60.83],
  ])('%d V to %d V at %d W', (V0, V1, P, C, milliohm, t, u0, u1, i0, i1, loss) => {
    const R = milliohm * 1e-3;
    const got = discharge({ V0, V1, P, C, R }, t);
    // The table gives six decimals.
    expect(Math.abs(got.time_s - t)).toBeLessThan(1e-6 * t + 5e-7);
    expect(V0 - R * got.first).toBeCloseTo(u0, 6);
    expect(V1 - R * got.last).toBeCloseTo(u1, 6);
    expect(got.first).toBeCloseTo(i0, 3);
    expect(got.last).toBeCloseTo(i1, 3);
    expect(Math.abs(got.loss - loss) / loss).toBeLessThan(1e-4);
  });

  it.each([
    // The limit is on the terminal voltage: the capacitor stops at u_min + P R/u_min.
    [54, 40, 10000, 30, 5, 1.780293],
    [51, 44, 12000, 10, 4, 0.231554],
  ])('%d V to %d V at the terminals', (V0, uMin, P, C, milliohm, t) => {
    const R = milliohm * 1e-3;
    const got = discharge({ V0, V1: uMin + (P * R) / uMin, P, C, R }, t);
    expect(Math.abs(got.time_s - t)).toBeLessThan(1e-6 * t + 5e-7);
  });

  it('an ideal capacitor follows v² = V0² − 2 P t/C', () => {
    const got = discharge({ V0: 54, V1: 40, P: 10000, C: 30, R: 1e-9 }, 1.974);
    expect(got.time_s / 1.974).toBeCloseTo(1, 6);
  });

  it('has no operating point below 2 √(R P), and says so', () => {
    const { trays } = new Circuit(
      {
        nodes: 1,
        held: [{ node: 0, voltage_V: 50 }],
        trays: [{ ...tray, node: 0, capacitance_F: 10, esr_ohm: 4e-3, power: 12e3, u: 20 }],
      },
      1e-3,
    ).network;
    const edge = 2 * Math.sqrt(4e-3 * 12e3);
    expect(trays.isInfeasible(0, 12e3, edge * 1.000001)).toBe(false);
    expect(trays.isInfeasible(0, 12e3, edge * 0.999999)).toBe(true);
  });
});

/** Growth rate of a swing about the equilibrium [1/s], from its peaks over `periods` periods. */
function growth(E: number, R: number, L: number, C: number, P: number, f: number, periods: number): number {
  const v = (E + Math.sqrt(E * E - 4 * R * P)) / 2;
  const c = new Circuit(
    {
      nodes: 2,
      held: [{ node: 1, voltage_V: E }],
      bars: [{ from: 1, to: 0, R, L, i: P / v }],
      capacitors: [{ node: 0, C, r: ideal * R, u: v * 1.001 }],
      loads: [{ node: 0, power_W: P }],
    },
    1 / f / 600,
  );
  const peaks: { readonly t: number; readonly size: number }[] = [];
  let last = 0;
  let before = 0;
  for (let k = 0; k < 600 * periods; k++) {
    c.step();
    const off = c.voltage(0) - v;
    if (last > before && last >= off && last > 0) peaks.push({ t: c.time_s - c.step_s, size: last });
    before = last;
    last = off;
  }
  const first = peaks[1]!;
  const end = peaks.at(-1)!;
  return Math.log(end.size / first.size) / (end.t - first.t);
}

describe('a supply that feeds constant power', () => {
  it.each([
    // E V, R mΩ, L µH, C mF, v* V, P_crit W, f Hz
    [54, 2, 1, 10, 51.923077, 53920.118, 1559.39],
    [50, 1, 2, 20, 49.50495, 24507.401, 791.786],
    [48, 5, 5, 2, 47.524752, 4517.204, 1583.572],
    [54, 5, 5, 1, 53.731343, 2887.057, 2245.157],
    [100, 100, 1000, 1, 99.009901, 980.296, 158.357],
  ])(
    'of %d V, %d mΩ and %d µH on %d mF swings up above its critical power and dies below',
    (E, mR, uL, mC, vStar, P, f) => {
      const [R, L, C] = [mR * 1e-3, uL * 1e-6, mC * 1e-3];
      expect((R * C * vStar ** 2) / L / P).toBeCloseTo(1, 6);
      expect(growth(E, R, L, C, 0.95 * P, f, 12)).toBeLessThan(0);
      expect(growth(E, R, L, C, 1.05 * P, f, 12)).toBeGreaterThan(0);
    },
  );

  it('grows and decays at the rate of its eigenvalues', () => {
    // First row above: real parts −53.937 and +54.398 1/s at 0.95 and 1.05 of the critical power.
    const [E, R, L, C, P, f] = [54, 2e-3, 1e-6, 10e-3, 53920.118, 1559.39] as const;
    expect(Math.abs(growth(E, R, L, C, 0.95 * P, f, 20) / -53.937 - 1)).toBeLessThan(5e-3);
    expect(Math.abs(growth(E, R, L, C, 1.05 * P, f, 20) / 54.398 - 1)).toBeLessThan(5e-3);
  });
});
