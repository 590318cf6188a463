/** One-sided amplitude spectrum and power spectral density of one stretch of uniform samples. */
import { complexOf, transform } from './fourier.ts';
import { type WindowName, windowFigures, windowSamples } from './windows.ts';

export interface Spectrum {
  readonly window: WindowName;
  /** Spacing of the bins: 1 over the stretch's length. */
  readonly bin_Hz: number;
  /** Equivalent noise bandwidth of a bin. */
  readonly noise_bandwidth_Hz: number;
  /**
   * Peak amplitude of a tone in bin k: 2|X_k|/Σw; the mean (k = 0) and the highest bin of an even count are
   * not doubled.
   */
  readonly amplitude: Float64Array;
  /** 2|X_k|²/(f_s Σw²), in unit² per Hz; its sum times `bin_Hz` is the mean square (Parseval). */
  readonly density: Float64Array;
}

/** Spectrum of `samples` at `rate_Hz` through the named window. Whole periods fall on bins at any count. */
export function spectrumOf(samples: Float64Array, rate_Hz: number, window: WindowName): Spectrum {
  const n = samples.length;
  if (n < 2) throw new RangeError(`a spectrum needs at least 2 samples, not ${n}`);
  const weighted = Float64Array.from(samples);
  let sum = n;
  let squares = n;
  if (window !== 'rectangular') {
    const w = windowSamples(window, n);
    sum = 0;
    squares = 0;
    for (let j = 0; j < n; j++) {
      weighted[j] = weighted[j]! * w[j]!;
      sum += w[j]!;
      squares += w[j]! * w[j]!;
    }
  }
  const X = transform(complexOf(weighted));
  const bins = Math.floor(n / 2) + 1;
  const amplitude = new Float64Array(bins);
  const density = new Float64Array(bins);
  for (let k = 0; k < bins; k++) {
    const re = X[2 * k]!;
    const im = X[2 * k + 1]!;
    const sides = k === 0 || 2 * k === n ? 1 : 2;
    const power = re * re + im * im;
    amplitude[k] = (sides * Math.sqrt(power)) / sum;
    density[k] = (sides * power) / (rate_Hz * squares);
  }
  const bin_Hz = rate_Hz / n;
  return {
    window,
    bin_Hz,
    noise_bandwidth_Hz: bin_Hz * windowFigures(window).noise_bandwidth_bins,
    amplitude,
    density,
  };
}

export interface Tone {
  readonly frequency_Hz: number;
  readonly amplitude: number;
}

/** The strongest bin with low ≤ f ≤ high, or null where no bin lies there. */
export function largestTone(spectrum: Spectrum, low_Hz: number, high_Hz: number): Tone | null {
  let best: Tone | null = null;
  for (let k = 1; k < spectrum.amplitude.length; k++) {
    const frequency_Hz = k * spectrum.bin_Hz;
    if (!isInBand(frequency_Hz, [low_Hz, high_Hz])) continue;
    const amplitude = spectrum.amplitude[k]!;
    if (best === null || amplitude > best.amplitude) best = { frequency_Hz, amplitude };
  }
  return best;
}

/** Both edges count, though rounding moves them. */
export function isInBand(f_Hz: number, [low_Hz, high_Hz]: readonly [number, number]): boolean {
  return f_Hz >= low_Hz * (1 - 1e-9) && f_Hz <= high_Hz * (1 + 1e-9);
}
