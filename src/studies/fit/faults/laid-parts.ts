/** Parts of a measurement, some channels between two moments, and what is left of each where it is laid on the model. */
import type { Residuals } from '../residuals.ts';

/** Moments at which the measurement is divided, and the least part on either side. */
export const moments = 60;
const leastPart = 0.1;

/** Channels between two moments. */
export interface Part {
  readonly channels: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** A part where it leaves least. */
export interface Laid {
  readonly part: Part;
  /** Of each channel over its noise; null: its own. */
  readonly levels: readonly number[] | null;
  left: number;
  later_s: number;
}

export function unlaid(part: Part, levels: Laid['levels'] = null): Laid {
  return { part, levels, left: Number.POSITIVE_INFINITY, later_s: 0 };
}

export function allOf(noise: readonly number[]): Part {
  return { channels: noise.map((_, c) => c), from: 0, to: moments };
}

export function others(noise: readonly number[], c: number): Part {
  const { channels, ...between } = allOf(noise);
  return { channels: channels.filter((k) => k !== c), ...between };
}

export function momentsInside(): number[] {
  const first = Math.ceil(leastPart * moments);
  return Array.from({ length: moments - 2 * first + 1 }, (_, k) => first + k);
}

export function totalOf(laid: readonly Laid[]): number {
  return laid.reduce((sum, { left }) => sum + left, 0);
}

/** Sums over the samples before each moment: all of them; those that lie within the run, their d and d². */
export interface Sums {
  readonly all: Float64Array;
  readonly n: Float64Array;
  readonly d: Float64Array;
  readonly dd: Float64Array;
}

export interface Divided {
  readonly c: number;
  readonly deviation: number;
  readonly first_s: number;
  readonly length_s: number;
}

export function sumsOf(
  points: Residuals['points'],
  simulated: Float64Array,
  { c, deviation, first_s, length_s }: Divided,
): Sums {
  const empty = (): Float64Array => new Float64Array(moments + 1);
  const sums: Sums = { all: empty(), n: empty(), d: empty(), dd: empty() };
  points.forEach(({ channel, time_s, value }, i) => {
    if (channel !== c) return;
    const part = Math.min(moments, 1 + Math.floor((moments * (time_s - first_s)) / length_s));
    sums.all[part]! += 1;
    if (Number.isNaN(simulated[i]!)) return;
    const d = (value - simulated[i]!) / deviation;
    sums.n[part]! += 1;
    sums.d[part]! += d;
    sums.dd[part]! += d * d;
  });
  for (const sum of [sums.all, sums.n, sums.d, sums.dd])
    for (let b = 1; b <= moments; b++) sum[b]! += sum[b - 1]!;
  return sums;
}

/** Σ of squares about the level of each channel, as if all samples lay within the run; half must. */
export function leftIn(sums: readonly Sums[], { part: { channels, from, to }, levels }: Laid): number {
  let left = 0;
  for (const c of channels) {
    const { all, n, d, dd } = sums[c]!;
    const [there, count] = [all[to]! - all[from]!, n[to]! - n[from]!];
    if (there === 0) continue;
    if (count < there / 2) return Number.POSITIVE_INFINITY;
    const sum = d[to]! - d[from]!;
    const level = levels?.[c] ?? sum / count;
    // Σ(d − L)².
    left += (Math.max(0, dd[to]! - dd[from]! - 2 * level * sum + level * level * count) * there) / count;
  }
  return left;
}
