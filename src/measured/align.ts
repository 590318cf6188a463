import { evenSamples } from '../loads/recorded/even.ts';
import { medianInterval_s } from '../loads/recorded/series.ts';
import type { MeasuredColumn } from './measurement.ts';

/** Where a measurement lies on the clock of the run. */
export interface Place {
  /** Time of the run at the file's first stamp [s]. */
  readonly at_s: number;
  readonly correlation_ratio: number;
  /** 1 where no other place comes near, 0 where another does as well. */
  readonly confidence_ratio: number;
}

/** A simulated curve at even times. */
export interface Simulated {
  readonly from_s: number;
  readonly rate_Hz: number;
  readonly samples: Float64Array;
}

/** Points of the coarse search; the best place is then refined. */
const coarsePoints = 3000;
/** Share of the shorter of the two that must overlap. */
const leastOverlap = 0.5;

/**
 * The place at which a measured curve agrees best with the simulated one, by their correlation coefficient:
 * searched on a coarse grid, then on the finer of both intervals, then by a parabola. null where either is flat.
 */
export function placeOf(measured: MeasuredColumn, simulated: Simulated): Place | null {
  const { time_s, values } = measured;
  const [first, last] = [time_s[0]!, time_s[time_s.length - 1]!];
  const sim_s = simulated.samples.length / simulated.rate_Hz;
  const fine_s = Math.max(1 / simulated.rate_Hz, medianInterval_s(time_s));
  const coarse_s = Math.max(fine_s, (last - first + sim_s) / coarsePoints);
  const search = (step_s: number, from: number, to: number) => {
    const a = even(simulated, step_s);
    const b = evenSamples(time_s, values, first, step_s, Math.max(2, Math.floor((last - first) / step_s)));
    const least = Math.max(8, leastOverlap * Math.min(a.length, b.length));
    const r: { readonly k: number; readonly r: number }[] = [];
    for (let k = from; k <= to; k++) r.push({ k, r: correlationAt(a, b, k, least) });
    return { r, points: { a: a.length, b: b.length } };
  };
  const whole = search(coarse_s, -Math.ceil((last - first) / coarse_s), Math.ceil(sim_s / coarse_s));
  const best = highest(whole.r);
  if (best === null) return null;
  const confidence_ratio = confidenceOf(whole.r, best);
  const k0 = (whole.r[best]!.k * coarse_s) / fine_s;
  const reach = Math.ceil((1.5 * coarse_s) / fine_s) + 1;
  const near = search(fine_s, Math.round(k0) - reach, Math.round(k0) + reach);
  const top = highest(near.r) ?? 0;
  const [l, m, h] = [near.r[top - 1]?.r, near.r[top]!.r, near.r[top + 1]?.r];
  const bend = l === undefined || h === undefined ? 0 : l - 2 * m + h;
  const part = bend < 0 ? (0.5 * (l! - h!)) / bend : 0;
  const start_s = simulated.from_s + 0.5 / simulated.rate_Hz;
  return {
    at_s: start_s + (near.r[top]!.k + part) * fine_s - first,
    correlation_ratio: m,
    confidence_ratio,
  };
}

function even({ samples, rate_Hz }: Simulated, step_s: number): Float64Array {
  const per = step_s * rate_Hz;
  const n = Math.max(1, Math.floor(samples.length / per));
  return Float64Array.from({ length: n }, (_, k) => {
    const x = Math.min(samples.length - 1, k * per);
    const i = Math.min(samples.length - 2, Math.floor(x));
    return samples.length < 2 ? samples[0]! : samples[i]! + (samples[i + 1]! - samples[i]!) * (x - i);
  });
}

function highest(r: readonly { readonly r: number }[]): number | null {
  let best = 0;
  for (let i = 1; i < r.length; i++) if (r[i]!.r > r[best]!.r) best = i;
  return (r[best]?.r ?? 0) > 0 ? best : null;
}

/** How far the highest value outside the peak's own hill stays below it. */
function confidenceOf(r: readonly { readonly r: number }[], best: number): number {
  let left = best;
  while (left > 0 && r[left - 1]!.r <= r[left]!.r) left--;
  let right = best;
  while (right < r.length - 1 && r[right + 1]!.r <= r[right]!.r) right++;
  let elsewhere = 0;
  r.forEach((at, i) => {
    if ((i < left || i > right) && at.r > elsewhere) elsewhere = at.r;
  });
  return 1 - elsewhere / r[best]!.r;
}

/** Correlation coefficient of a(t) with b laid at offset k; 0 where fewer than `least` points meet. */
function correlationAt(a: Float64Array, b: Float64Array, k: number, least: number): number {
  const from = Math.max(0, k);
  const to = Math.min(a.length, k + b.length);
  const n = to - from;
  if (n < least) return 0;
  let sa = 0;
  let sb = 0;
  for (let i = from; i < to; i++) {
    sa += a[i]!;
    sb += b[i - k]!;
  }
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let i = from; i < to; i++) {
    const x = a[i]! - sa / n;
    const y = b[i - k]! - sb / n;
    saa += x * x;
    sbb += y * y;
    sab += x * y;
  }
  return saa > (1e-12 * (1 + sa * sa)) / n && sbb > (1e-12 * (1 + sb * sb)) / n
    ? sab / Math.sqrt(saa * sbb)
    : 0;
}
