// Source: Fourier series of the rectangular pulse train, c_n = (2/(nπ)) |sin(nπD)|, and of the trapezoid of
// width D at half height, c_n = 2D |sinc(nD) sinc(n t_r/T)| (for example A. V. Oppenheim and A. S. Willsky,
// "Signals and Systems", ch. 3). Unit peak to peak. Tolerance 1e-6, half the last digit printed.
//
// A sampled wave folds what lies above half the sampling rate. The samples here are means over one sample
// width, which multiplies c_n by sinc(n/N) and folds little; both are undone or below the tolerance.
import { test } from 'vitest';
import { spectrumOf } from '../../src/analysis/signal/spectrum.ts';
import { published } from './published.ts';

const lines = published({
  what: 'spectrum of sampled pulse trains',
  source: 'Oppenheim and Willsky, Signals and Systems, ch. 3',
  absolute: true,
});

const count = 120_000;

/** Integral of the trapezoid of period 1 from 0 to t: rises over t_r about 0, falls over t_r about D. */
function integral(t: number, duty: number, edge: number): number {
  const up = (x: number): number => {
    if (edge === 0) return Math.max(0, x);
    if (x <= -edge / 2) return 0;
    if (x >= edge / 2) return x;
    return (x + edge / 2) ** 2 / (2 * edge);
  };
  return up(t) - up(t - duty);
}

function pulseTrain(duty: number, edge: number): Float64Array {
  const samples = new Float64Array(count);
  for (let j = 0; j < count; j++) {
    const from = j / count - edge / 2;
    samples[j] = (integral(from + 1 / count, duty, edge) - integral(from, duty, edge)) * count;
  }
  return samples;
}

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

const trains: readonly [string, number, number, Record<number, number>][] = [
  ['D 0.5', 0.5, 0, { 1: 0.63662, 2: 0, 3: 0.212207, 4: 0, 5: 0.127324, 7: 0.090946 }],
  ['D 0.3', 0.3, 0, { 1: 0.515036, 2: 0.302731, 3: 0.065575, 4: 0.093549, 5: 0.127324, 7: 0.028104 }],
  ['D 0.2', 0.2, 0, { 1: 0.374196, 2: 0.302731, 3: 0.20182, 4: 0.093549, 5: 0, 7: 0.086494 }],
  [
    'trapezoid D 0.5, edge 0.1 T',
    0.5,
    0.1,
    { 1: 0.626199, 2: 0, 3: 0.182157, 4: 0, 5: 0.081057, 7: 0.033457 },
  ],
];

test.each(trains)('a pulse train of %s has the published Fourier amplitudes', (name, duty, edge, table) => {
  const spectrum = spectrumOf(pulseTrain(duty, edge), count, 'rectangular');
  lines({ which: `${name}, mean`, expected: duty, found: spectrum.amplitude[0]!, tolerance: 1e-6 });
  for (const [n, expected] of Object.entries(table)) {
    const measured = spectrum.amplitude[Number(n)]! / sinc(Number(n) / count);
    lines({ which: `${name}, n = ${n}`, expected, found: measured, tolerance: 1e-6 });
  }
});
