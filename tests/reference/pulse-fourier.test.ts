/**
 * Fourier amplitudes of pulse trains, from the textbook closed forms (A. V. Oppenheim, A. S. Willsky, "Signals and
 * Systems", 2nd ed., example 3.5 and the convolution property): rectangular wave of unit height and duty D,
 * c_n = (2/(nπ))·|sin(nπD)|; with straight edges of length t_r and width D·T at half height,
 * c_n = 2D·|sinc(nD)·sinc(n·t_r/T)|, sinc x = sin(πx)/(πx). The table holds them to six digits.
 * Amplitudes of the demand are exact from its kinks: for a continuous straight-line curve with slope changes
 * d_k at t_k, c_n = (2/(T·(2πn/T)²))·|Σ d_k·e^(−j2πn·t_k/T)|. Tolerance 1e-6 is the table's last digit; the
 * rectangular columns are met with an edge of 1e-4·T, whose own sinc deviates by at most (πn·1e-4)²/6 = 8e-7 for n ≤ 7.
 */
import { test } from 'vitest';
import { pulseTrainDemand } from '../../src/loads/pulse-train.ts';
import { contextOf } from '../loads/context.ts';
import { published } from './published.ts';

const tolerance = 1e-6;
const period_s = 1;

function amplitude(duty_ratio: number, edge_s: number, n: number): number {
  const load = { kind: 'pulse-train', low_W: 0, high_W: 1, spread_s: 0, scatter_s: 0, jitter_s: 0 } as const;
  const d = pulseTrainDemand({ ...load, period_s, duty_ratio, edge_s }, contextOf({ duration_s: 1 }));
  const out = new Float64Array(1);
  const at = (tick: number) => {
    d.at(out, tick);
    return out[0]!;
  };
  const T = d.period_ticks!;
  let re = 0;
  let im = 0;
  for (let t = d.nextKink(0); t <= T; t = d.nextKink(t)) {
    const change = at(t + 1) - 2 * at(t) + at(t - 1);
    const angle = (2 * Math.PI * n * t) / T;
    re += change * Math.cos(angle);
    im -= change * Math.sin(angle);
  }
  return (2 * T * Math.sqrt(re * re + im * im)) / (2 * Math.PI * n) ** 2;
}

const lines = published({
  what: 'Fourier amplitudes of the pulse-train load',
  source: 'Oppenheim and Willsky, Signals and Systems, ch. 3',
  absolute: true,
});

const rectangular: readonly (readonly [n: number, half: number, three: number, fifth: number])[] = [
  [1, 0.63662, 0.515036, 0.374196],
  [2, 0, 0.302731, 0.302731],
  [3, 0.212207, 0.065575, 0.20182],
  [4, 0, 0.093549, 0.093549],
  [5, 0.127324, 0.127324, 0],
  [7, 0.090946, 0.028104, 0.086494],
];

test.each(rectangular)(
  'harmonic %i of a sharp pulse train is the published amplitude',
  (n, half, three, fifth) => {
    for (const [D, expected] of [
      [0.5, half],
      [0.3, three],
      [0.2, fifth],
    ] as const) {
      lines({ which: `D ${D}, n = ${n}`, expected, found: amplitude(D, 1e-4, n), tolerance });
    }
  },
);

test.each([
  [1, 0.626199],
  [2, 0],
  [3, 0.182157],
  [4, 0],
  [5, 0.081057],
  [7, 0.033457],
])('harmonic %i with edges of a tenth of the period is the published amplitude', (n, book) => {
  lines({ which: `edges of 0.1 T, n = ${n}`, expected: book, found: amplitude(0.5, 0.1, n), tolerance });
});
