/**
 * Cosine-sum windows by their coefficients: w[j] = Σ (−1)^k a_k cos(2π k j/N), j = 0 … N−1 (periodic form),
 * scaled so that the peak is 1. Gain and noise bandwidth follow from the coefficients exactly.
 * Source: F. J. Harris, Proc. IEEE 66(1), 1978, table 1; G. Heinzel, A. Rüdiger, R. Schilling, "Spectrum and
 * spectral density estimation by the DFT", Max-Planck-Institut, 2002 (flat top HFT90D).
 */
import { cosineOfTurns } from '../../base/sine.ts';
import type { ComplexPairs } from './fourier.ts';

export type WindowName = 'rectangular' | 'hann' | 'blackman-harris' | 'flat-top';

const coefficients: Readonly<Record<WindowName, readonly number[]>> = {
  rectangular: [1],
  hann: [0.5, 0.5],
  'blackman-harris': [0.35875, 0.48829, 0.14128, 0.01168],
  'flat-top': [1, 1.942604, 1.340318, 0.440811, 0.043097],
};

export interface WindowFigures {
  /** Mean of the window, its peak being 1: what a tone's amplitude is divided by. */
  readonly coherent_gain_ratio: number;
  /** Equivalent noise bandwidth in bins: N Σw² / (Σw)². */
  readonly noise_bandwidth_bins: number;
}

/** Coherent gain a_0/Σa_k and noise bandwidth (a_0² + ½ Σ a_k²)/a_0². */
export function windowFigures(name: WindowName): WindowFigures {
  const a = coefficients[name];
  const a0 = a[0]!;
  let sum = a0;
  let squares = a0 * a0;
  for (let k = 1; k < a.length; k++) {
    sum += a[k]!;
    squares += (a[k]! * a[k]!) / 2;
  }
  return { coherent_gain_ratio: a0 / sum, noise_bandwidth_bins: squares / (a0 * a0) };
}

/** The window's `count` samples, peak 1. */
export function windowSamples(name: WindowName, count: number): Float64Array {
  const a = coefficients[name];
  let peak = 0;
  for (const part of a) peak += part;
  const w = new Float64Array(count);
  for (let j = 0; j < count; j++) {
    let sum = 0;
    for (let k = 0; k < a.length; k++) {
      // k j mod N keeps the argument small, and the cosine exact to the last digit for long windows.
      const turn = ((k * j) % count) / count;
      sum += (k % 2 === 0 ? 1 : -1) * a[k]! * cosineOfTurns(turn);
    }
    w[j] = sum / peak;
  }
  return w;
}

/** Mean of a window whose peak is 1: what n times divides a bin to give half a tone's amplitude. */
export function windowGain(name: WindowName): number {
  return windowFigures(name).coherent_gain_ratio;
}

/**
 * |X_k| as if the n real samples had gone through a window: its cosines spread a bin over those beside it,
 * X_k = Σ (−1)^m a_m/2 (X_(k−m) + X_(k+m)). X: their transform without one, up to half the rate.
 */
export function windowedBin(X: ComplexPairs, n: number, k: number, name: WindowName): number {
  const a = coefficients[name];
  let peak = 0;
  for (const part of a) peak += part;
  let re = a[0]! * X[2 * k]!;
  let im = a[0]! * X[2 * k + 1]!;
  for (let m = 1; m < a.length; m++) {
    const part = ((m % 2 === 0 ? 1 : -1) * a[m]!) / 2;
    for (const at of [k - m, k + m]) {
      // Bins below 0 and above half the rate mirror those they have.
      const round = ((at % n) + n) % n;
      const mirrored = 2 * round > n;
      const bin = mirrored ? n - round : round;
      re += part * X[2 * bin]!;
      im += mirrored ? -part * X[2 * bin + 1]! : part * X[2 * bin + 1]!;
    }
  }
  return Math.sqrt(re * re + im * im) / peak;
}
