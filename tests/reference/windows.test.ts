// Sources: F. J. Harris, "On the use of windows for harmonic analysis with the DFT", Proc. IEEE 66(1),
// 51-83, 1978, table 1 (rectangular, Hann, 4-term Blackman-Harris −92 dB); G. Heinzel, A. Rüdiger,
// R. Schilling, "Spectrum and spectral density estimation by the DFT", Max-Planck-Institut, 2002, table of
// flat-top windows (HFT90D). Tolerance: noise bandwidth 1e-4 bins (four digits are printed), scalloping
// 5e-4 dB, coherent gain half the last digit printed.
import { expect, test } from 'vitest';
import { spectrumOf } from '../../src/analysis/signal/spectrum.ts';
import { type WindowName, windowFigures, windowSamples } from '../../src/analysis/signal/windows.ts';
import { published } from './published.ts';

const source = 'Harris, Proc. IEEE 66(1), 1978; Heinzel et al. 2002';
const gains = published({ what: 'coherent gain of window functions', source, absolute: true });
const widths = published({
  what: 'noise bandwidth of window functions',
  source,
  unit: 'bins',
  absolute: true,
});
const losses = published({ what: 'scalloping of window functions', source, unit: 'dB', absolute: true });

const table: readonly [WindowName, number, number, number][] = [
  //                  gain     bins    scalloping dB
  ['rectangular', 1, 1.0, -3.9224],
  ['hann', 0.5, 1.5, -1.4236],
  ['blackman-harris', 0.35875, 2.0044, -0.8256],
  ['flat-top', 0.20978, 3.8832, -0.0039],
];

test.each(table)('%s has the published coherent gain and noise bandwidth', (name, gain, bins) => {
  const figures = windowFigures(name);
  gains({ which: name, expected: gain, found: figures.coherent_gain_ratio, tolerance: 5e-6 });
  widths({ which: name, expected: bins, found: figures.noise_bandwidth_bins, tolerance: 1e-4 });
});

test.each(table)('%s samples have the gain and bandwidth that its coefficients promise', (name) => {
  const w = windowSamples(name, 4096);
  let sum = 0;
  let squares = 0;
  for (const value of w) {
    sum += value;
    squares += value * value;
  }
  const figures = windowFigures(name);
  expect(Math.abs(sum / 4096 - figures.coherent_gain_ratio)).toBeLessThan(1e-12);
  expect(Math.abs((4096 * squares) / (sum * sum) - figures.noise_bandwidth_bins)).toBeLessThan(1e-11);
});

test.each(table)('%s loses the published scalloping on a tone half way between bins', (name, _g, _b, dB) => {
  // A complex tone has no image; the real one's image lies 2000 bins away, below the tolerance but for the
  // rectangular window, whose image falls off as 1/f: 1/(π 2000) is −76 dB, 1.4e-3 dB. Hence a quarter rate.
  const n = 4096;
  const tone = new Float64Array(n);
  for (let j = 0; j < n; j++) tone[j] = Math.cos((2 * Math.PI * (n / 4 + 0.5) * j) / n + Math.PI / 4);
  const spectrum = spectrumOf(tone, n, name);
  const response = Math.max(spectrum.amplitude[n / 4]!, spectrum.amplitude[n / 4 + 1]!);
  losses({
    which: name,
    expected: dB,
    found: 20 * Math.log10(response),
    tolerance: name === 'rectangular' ? 5e-3 : 5e-4,
  });
});
