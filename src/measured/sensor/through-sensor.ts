/**
 * A simulated stream as an instrument shows it. What was measured has been through the instrument already; the
 * simulated channel goes through the same before the two are compared, so that neither a lost steady part nor a mean over
 * a window counts as an error of the model.
 *
 * High-pass, low-pass and mean are taken on the curve between samples (eight points to a sample, straight lines between
 * those): one pole against a curve that is straight over h is exact, x = a + b t, y(t + h) = x(t + h) − b τ + (y(t) − a + b τ) e^(−h/τ).
 * Filters begin settled on the first value: the run was steady before its judged window as far as anyone knows.
 */
import type { Stream } from '../../engine/result.ts';
import { between } from '../simulated-at.ts';
import type { Sensor } from './sensor.ts';

/** Points to a sample: what straight lines between them take off 100 Hz is 0.05 %. */
const finer = 8;

export function throughSensor(stream: Stream, sensor: Sensor): Stream {
  const { low_corner_Hz, corner_Hz, averaging_s } = sensor;
  if (low_corner_Hz === null && corner_Hz === null && averaging_s === 0) return stream;
  const { rate_Hz, from_s, samples } = stream;
  const h = 1 / (finer * rate_Hz);
  // From the first sample to the last; simulated values exist in between.
  const count = finer * (samples.length - 1) + 1;
  let curve: Float64Array = Float64Array.from({ length: count }, (_, k) =>
    k % finer === 0 ? samples[k / finer]! : between(samples, k / finer),
  );
  if (low_corner_Hz !== null) {
    const steady = onePole(curve, low_corner_Hz, h);
    curve = curve.map((value, k) => value - steady[k]!);
  }
  if (corner_Hz !== null) curve = onePole(curve, corner_Hz, h);
  if (averaging_s > 0) curve = trailingMean(curve, averaging_s / h);
  // Before a whole window has passed nobody knows what came before: the stream begins later.
  const skipped = Math.min(samples.length, Math.ceil(averaging_s * rate_Hz - 1e-9));
  return {
    ...stream,
    from_s: from_s + skipped / rate_Hz,
    samples: Float64Array.from({ length: samples.length - skipped }, (_, k) => curve[finer * (skipped + k)]!),
  };
}

function onePole(x: Float64Array, corner_Hz: number, h: number): Float64Array {
  const tau = 1 / (2 * Math.PI * corner_Hz);
  const decay = Math.exp(-h / tau);
  const y = new Float64Array(x.length);
  y[0] = x[0]!;
  for (let k = 1; k < x.length; k++) {
    const lag = ((x[k]! - x[k - 1]!) / h) * tau;
    y[k] = x[k]! - lag + (y[k - 1]! - x[k - 1]! + lag) * decay;
  }
  return y;
}

/** Mean over `width` points before each; the value itself before a whole width has passed. */
function trailingMean(x: Float64Array, width: number): Float64Array {
  const sums = new Float64Array(x.length);
  for (let k = 1; k < x.length; k++) sums[k] = sums[k - 1]! + (x[k - 1]! + x[k]!) / 2;
  const sumTo = (at: number): number => {
    const k = Math.floor(at);
    const part = at - k;
    if (part === 0) return sums[k]!;
    const between = x[k]! + (x[k + 1]! - x[k]!) * part;
    return sums[k]! + (part * (x[k]! + between)) / 2;
  };
  return x.map((_, k) => (k < width ? x[k]! : (sums[k]! - sumTo(k - width)) / width));
}
