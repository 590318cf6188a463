import { expect, it } from 'vitest';
import { withoutLine } from '../../../src/analysis/signal/detrend.ts';
import { complexOf, transform } from '../../../src/analysis/signal/fourier.ts';
import { readSpectra } from '../../../src/analysis/signal/spectra.ts';
import { largestTone, spectrumOf } from '../../../src/analysis/signal/spectrum.ts';
import { StrongestTone } from '../../../src/analysis/signal/tones.ts';
import { windowedBin, windowSamples } from '../../../src/analysis/signal/windows.ts';

const n = 999;
const rate_Hz = 100;
const wave = Float64Array.from({ length: n }, (_, j) => {
  const t = j / rate_Hz;
  return 7 + Math.cos(2 * Math.PI * 3.3 * t) + 2 * Math.cos(2 * Math.PI * 17.04 * t) + t / 50;
});

it.each(['hann', 'blackman-harris', 'flat-top'] as const)(
  'windowedBin() is what a transform of the samples through a window has: %s',
  (name) => {
    const X = transform(complexOf(wave));
    const w = windowSamples(name, n);
    const through = transform(complexOf(wave.map((x, j) => x * w[j]!)));
    for (const k of [0, 1, 3, 200, (n - 1) / 2])
      expect(windowedBin(X, n, k, name)).toBeCloseTo(Math.hypot(through[2 * k]!, through[2 * k + 1]!), 8);
  },
);

it.each([
  [[1, 10], 3.3, 1],
  [[10, 30], 17.04, 2],
] satisfies [[number, number], number, number][])(
  'the strongest tone of a band is that of its flat-top spectrum: %j Hz',
  (band, f_Hz, height) => {
    const tone = new StrongestTone(rate_Hz, band, false);
    readSpectra(wave, false, [tone]);
    const expected = largestTone(spectrumOf(withoutLine(wave), rate_Hz, 'flat-top'), band[0], band[1])!;
    expect(tone.found!.frequency_Hz).toBe(expected.frequency_Hz);
    expect(tone.found!.amplitude).toBeCloseTo(expected.amplitude, 12);
    expect(tone.found!.at).toBe(n / 2);
    expect(Math.abs(tone.found!.frequency_Hz - f_Hz)).toBeLessThan(rate_Hz / n);
    expect(Math.abs(tone.found!.amplitude / height - 1)).toBeLessThan(0.01);
  },
);

it('a band without a bin has no tone', () => {
  const tone = new StrongestTone(rate_Hz, [0.11, 0.15], true);
  readSpectra(wave.subarray(0, 100), true, [tone]);
  expect(tone.found).toBeNull();
});
