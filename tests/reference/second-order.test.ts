/**
 * Step response of a second-order system: overshoot exp(−π ζ/√(1 − ζ²)), its time π/ω_d, rise times and the times
 * after which it stays within 2 and 5 %. The system is R, L and C in series behind a voltage step.
 *
 * Sources: N. S. Nise, Control Systems Engineering, example 4.5 (100/(s² + 15 s + 100)); K. Ogata, Modern Control
 * Engineering, example 5-1 (ω_n 5, ζ 0.6), answers as remembered; the other rows are the closed form evaluated.
 *
 * Tolerance: 20 000 steps per 1/ω_n, crossings by straight lines: 1e-4 of each time, 1e-3 % of overshoot.
 */
import { describe, it } from 'vitest';
import { Circuit, ideal } from './circuit.ts';
import { published } from './published.ts';

// ω_n, ζ, M_p [%], t_p, t_r 0-100, t_r 10-90, t_s 2 %, t_s 5 % [s]
const rows = [
  [10, 0.75, 2.83754, 0.474964, 0.365697, 0.22875, 0.57426, 0.3125],
  [5, 0.6, 9.47802, 0.785398, 0.553574, 0.37081, 1.1886, 1.04581],
  [10, 0.5, 16.30335, 0.36276, 0.24184, 0.16376, 0.80763, 0.52891],
  [1, 0.2, 52.66206, 3.206375, 1.808697, 1.20342, 19.60188, 13.74441],
  [1, 0.4, 25.38267, 3.427759, 2.162881, 1.46349, 8.40931, 7.60878],
  [1, Math.SQRT1_2, 4.32139, 4.442883, 3.332162, 2.14803, 5.96258, 2.92983],
  [100, 0.1, 72.92476, 0.031574, 0.016794, 0.01104, 0.38383, 0.28968],
] as const;

const source = 'Nise, example 4.5; Ogata, example 5-1; closed form';
const overshoots = published({ what: 'second order, overshoot', source, unit: '%', absolute: true });
const times = published({ what: 'second order, peak, rise and settling times', source, unit: 's' });

function response(wn: number, zeta: number, end_s: number) {
  const C = 1;
  const L = 1 / (wn * wn * C);
  const step = 1 / (wn * 2000);
  const c = new Circuit(
    {
      nodes: 2,
      held: [{ node: 0, voltage_V: 1 }],
      bars: [{ from: 0, to: 1, R: 2 * zeta * wn * L, L }],
      capacitors: [{ node: 1, C, r: ideal * 2 * zeta * wn * L, u: 0 }],
    },
    step,
  );
  const found = { peak: 0, at: 0, at10: 0, at90: 0, at100: 0, out2: 0, out5: 0 };
  let [older, before] = [0, 0];
  while (c.time_s < end_s) {
    c.step();
    const y = c.voltage(1);
    /** Time at which the last step crossed a level. */
    const crossed = (level: number): number => c.time_s - (step * (y - level)) / (y - before);
    if (before < 0.1 && y >= 0.1 && found.at10 === 0) found.at10 = crossed(0.1);
    if (before < 0.9 && y >= 0.9 && found.at90 === 0) found.at90 = crossed(0.9);
    if (before < 1 && y >= 1 && found.at100 === 0) found.at100 = crossed(1);
    for (const [band, key] of [
      [0.02, 'out2'],
      [0.05, 'out5'],
    ] as const) {
      for (const level of [1 - band, 1 + band]) {
        const isIn = Math.abs(y - 1) <= band;
        const wasIn = Math.abs(before - 1) <= band;
        if (isIn && !wasIn && (before - level) * (y - level) <= 0) found[key] = crossed(level);
      }
    }
    if (before >= older && before > y && before > found.peak) {
      // The top of the parabola through three points.
      const bend = older - 2 * before + y;
      found.peak = before - (y - older) ** 2 / (8 * bend);
      found.at = c.time_s - step - (step * (y - older)) / (2 * bend);
    }
    [older, before] = [before, y];
  }
  return found;
}

describe('the step response of a second-order system', () => {
  it.each(rows)('ω_n %d, ζ %d: overshoot, rise and settling', (wn, zeta, Mp, tp, t100, t1090, ts2, ts5) => {
    const found = response(wn, zeta, 1.3 * ts2);
    const which = `ω_n ${wn}, ζ ${Number(zeta.toPrecision(4))}`;
    overshoots({ which, expected: Mp, found: 100 * (found.peak - 1), tolerance: 1e-3 });
    // The tabulated values are rounded to five digits behind the point.
    const time = (what: string, expected: number, got: number): void =>
      times({ which: `${which}, ${what}`, expected, found: got, tolerance: 1e-4 + 1e-5 / expected });
    time('peak', tp, found.at);
    time('rise 0 to 100 %', t100, found.at100);
    time('rise 10 to 90 %', t1090, found.at90 - found.at10);
    time('within 2 %', ts2, found.out2);
    time('within 5 %', ts5, found.out5);
  });
});
