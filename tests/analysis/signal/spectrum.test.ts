import { expect, test } from 'vitest';
import { complexOf, inverse, transform } from '../../../src/analysis/signal/fourier.ts';
import { largestTone, spectrumOf } from '../../../src/analysis/signal/spectrum.ts';
import type { WindowName } from '../../../src/analysis/signal/windows.ts';

/** A fixed pseudo-random sequence in −1 … 1. */
function noise(count: number): Float64Array {
  let state = 12345;
  const out = new Float64Array(count);
  for (let j = 0; j < count; j++) {
    state = (state * 1103515245 + 12345) % 2147483648;
    out[j] = state / 1073741824 - 1;
  }
  return out;
}

test.each([2, 3, 7, 16, 45, 128, 1000])('transform() equals the plain sum for %i samples', (n) => {
  const x = noise(2 * n);
  const X = transform(x);
  for (let k = 0; k < n; k++) {
    let re = 0;
    let im = 0;
    for (let j = 0; j < n; j++) {
      const angle = (-2 * Math.PI * ((j * k) % n)) / n;
      re += x[2 * j]! * Math.cos(angle) - x[2 * j + 1]! * Math.sin(angle);
      im += x[2 * j]! * Math.sin(angle) + x[2 * j + 1]! * Math.cos(angle);
    }
    expect(Math.abs(X[2 * k]! - re)).toBeLessThan(1e-11 * n);
    expect(Math.abs(X[2 * k + 1]! - im)).toBeLessThan(1e-11 * n);
  }
});

test.each([64, 8640, 14401])('inverse() undoes transform() for %i samples', (n) => {
  const x = noise(2 * n);
  const back = inverse(transform(x));
  for (let j = 0; j < 2 * n; j++) expect(Math.abs(back[j]! - x[j]!)).toBeLessThan(1e-11);
});

test.each<[WindowName]>([['rectangular'], ['hann'], ['blackman-harris'], ['flat-top']])(
  'the amplitude of a tone on a bin is exact through the %s window',
  (window) => {
    const n = 2880;
    const samples = new Float64Array(n);
    for (let j = 0; j < n; j++) samples[j] = 5 + 3 * Math.sin((2 * Math.PI * 100 * j) / n + 0.3);
    const spectrum = spectrumOf(samples, 100, window);
    expect(Math.abs(spectrum.amplitude[100]! - 3)).toBeLessThan(1e-10);
    expect(Math.abs(spectrum.amplitude[0]! - 5)).toBeLessThan(1e-10);
    expect(largestTone(spectrum, 1, 50)?.frequency_Hz).toBeCloseTo((100 * 100) / n, 9);
  },
);

test.each([1000, 1001])('the density adds up to the mean square of %i samples (Parseval)', (n) => {
  const samples = noise(n);
  const spectrum = spectrumOf(samples, 250, 'rectangular');
  let square = 0;
  for (const value of samples) square += value * value;
  let sum = 0;
  for (const value of spectrum.density) sum += value * spectrum.bin_Hz;
  expect(Math.abs(sum / (square / n) - 1)).toBeLessThan(1e-12);
});

test('the noise bandwidth of a bin is the bin times the window figure', () => {
  const spectrum = spectrumOf(new Float64Array(500), 1000, 'hann');
  expect(spectrum.bin_Hz).toBe(2);
  expect(spectrum.noise_bandwidth_Hz).toBeCloseTo(3, 12);
});

test('spectrumOf() refuses a single sample', () => {
  expect(() => spectrumOf(new Float64Array(1), 1, 'hann')).toThrowErrorMatchingInlineSnapshot(
    `[RangeError: a spectrum needs at least 2 samples, not 1]`,
  );
});

test('largestTone() returns null where no bin lies', () => {
  expect(largestTone(spectrumOf(complexOf(new Float64Array(4)), 8, 'hann'), 7, 100)).toBeNull();
});
