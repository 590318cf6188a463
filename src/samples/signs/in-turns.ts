/**
 * Whether samples are those of n devices in turns: each nth sample follows the nth before it, however its neighbours lie.
 * A load that repeats itself every n samples does so too, but at one level of its own; devices do it at every level.
 */
import { medianOf, quantileOf } from '../quantile.ts';

/** Devices that are told apart; two that are unlike turn back from sample to sample, and are told by that. */
export const mostDevices = 8;
/** Of so few a load that repeats itself is sampled too slowly to be seen at all, and need not move to be asked about. */
const asked = 3;
/** Cycles of n samples without which no order of theirs is told. */
const fewestCycles = 100;
/** Stretches, each of which must show the same order, and shares of the level in which all must show it too. */
const stretches = 4;
const level_share = 0.3;
/** Standard errors by which an order shows in a stretch, and the mean of the levels must differ, in sizes of the order. */
const sure = 4;
const least_levels = 3;
/** Samples n apart differ by so little of what nearer ones do. */
const alike_ratio = 0.5;
/** Nor do these differ the more the further they are apart, as in a swing of about n samples: sin(π/n) of its most. */
const evenly_ratio = 0.75;
/** Variance of the mean of n samples over that of a sample about it: of n devices apart 1/(n − 1). */
const moving_ratio = 0.08;
/** Share of the cycles in which two neighbours stand one way, and the other way, by such a share of what they spread. */
const exchanged_ratio = 0.1;
const apart_share = 0.5;

/** Of more samples so many blocks are looked at, spread over all of them, each of whole cycles of every length. */
const blocks = 12;
const block = 840;

/** The number of devices; null where samples do not show that they are several. */
export function devicesInTurns(all: Float64Array): number | null {
  const values = spread(all);
  const counts = Array.from({ length: mostDevices - 1 }, (_, k) => k + 2).filter(
    (n) => values.length >= fewestCycles * n,
  );
  const away = distances(values, mostDevices);
  // Of four devices in turns every other pair may be unlike: the largest number says all of it.
  const ordered = counts.findLast((n) => keepsItsOrder(values, n));
  return ordered ?? counts.find((n) => n > 2 && areApart(values, n, away)) ?? null;
}

function spread(values: Float64Array): Float64Array {
  if (values.length <= blocks * block) return values;
  const out = new Float64Array(blocks * block);
  const last = Math.floor(values.length / block) - 1;
  for (let k = 0; k < blocks; k++) {
    const from = block * Math.floor((k * last) / (blocks - 1));
    out.set(values.subarray(from, from + block), k * block);
  }
  return out;
}

/** Each sample less the mean of the n about it, and that mean; a trend cancels. Of an even n the outer two count half. */
function aboutMean(
  values: Float64Array,
  n: number,
): { readonly off: Float64Array; readonly mean: Float64Array } {
  const half = n >> 1;
  const count = values.length - 2 * half;
  const [off, mean] = [new Float64Array(count), new Float64Array(count)];
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let k = 0; k <= 2 * half; k++)
      sum += (n % 2 === 0 && (k === 0 || k === 2 * half) ? 0.5 : 1) * values[i + k]!;
    mean[i] = sum / n;
    off[i] = values[i + half]! - mean[i]!;
  }
  return { off, mean };
}

/** Alike devices differ by a little that stays: at all times, and at high and low levels of the load. */
function keepsItsOrder(values: Float64Array, n: number): boolean {
  const { off, mean } = aboutMean(values, n);
  const all = orderIn(off, n, () => true);
  if (all === null) return false;
  const size = Math.sqrt(all.order.reduce((sum, v) => sum + v * v, 0));
  if (!(size > 0)) return false;
  const shows = (isIn: (i: number) => boolean): boolean => {
    const part = orderIn(off, n, isIn);
    if (part === null) return false;
    const along = part.order.reduce((sum, v, k) => sum + v * all.order[k]!, 0) / size;
    return along > sure * part.error && along > 0.25 * size;
  };
  for (let k = 0; k < stretches; k++)
    if (!shows((i) => Math.floor((stretches * i) / off.length) === k)) return false;
  const at = (share: number): number => quantileOf(mean.length, (i) => mean[i]!, share);
  const [low, high] = [at(level_share), at(1 - level_share)];
  if (!shows((i) => mean[i]! <= low) || !shows((i) => mean[i]! >= high)) return false;
  return n === asked || high - low > least_levels * size;
}

/** Medians by place in the cycle, of what no shorter cycle has too, and the standard error of one. */
function orderIn(
  off: Float64Array,
  n: number,
  isIn: (i: number) => boolean,
): { readonly order: readonly number[]; readonly error: number } | null {
  const places = Array.from({ length: n }, () => [] as number[]);
  for (let i = 0; i < off.length; i++) if (isIn(i)) places[i % n]!.push(off[i]!);
  const fewest = Math.min(...places.map((place) => place.length));
  if (fewest < fewestCycles / (2 * stretches)) return null;
  const medians = places.map((place) => medianOf(place.length, (i) => place[i]!));
  const scatter = Math.max(
    ...places.map((place, k) => medianOf(place.length, (i) => Math.abs(place[i]! - medians[k]!))),
  );
  const order = withoutShorter(medians, n);
  // Of a normal scatter: 1.483 median deviations are a standard deviation, the median's error 1.253 of the mean's.
  return { order, error: (1.483 * 1.253 * scatter) / Math.sqrt(fewest) };
}

/** What of a cycle of n is none of n over a prime. */
function withoutShorter(cycle: readonly number[], n: number): readonly number[] {
  let rest = [...cycle];
  for (const prime of [2, 3, 5, 7]) {
    if (n % prime !== 0) continue;
    const shorter = n / prime;
    const means = Array.from({ length: shorter }, (_, k) => {
      let sum = 0;
      for (let i = k; i < n; i += shorter) sum += rest[i]!;
      return sum / prime;
    });
    rest = rest.map((v, k) => v - means[k % shorter]!);
  }
  return rest;
}

/** Devices apart: samples n away are alike where all nearer ones differ, their mean moves, and neighbours change places. */
function areApart(values: Float64Array, n: number, away: readonly number[]): boolean {
  const nearer = away.slice(1, n);
  const least = Math.min(...nearer);
  if (away[n]! > alike_ratio * least || least < evenly_ratio * Math.max(...nearer)) return false;
  const { off, mean } = aboutMean(values, n);
  if (!(variance(mean) > moving_ratio * variance(off))) return false;
  const apart = apart_share * Math.sqrt(variance(off));
  const cycles = Math.floor((values.length - 1) / n);
  for (let k = 0; k < n; k++) {
    let [up, down] = [0, 0];
    for (let i = k; i + 1 < values.length; i += n) {
      const step = values[i + 1]! - values[i]!;
      if (step > apart) up++;
      if (step < -apart) down++;
    }
    if (Math.min(up, down) < exchanged_ratio * cycles) return false;
  }
  return true;
}

/** Mean distance of samples 0, 1, … `most` apart. */
function distances(values: Float64Array, most: number): readonly number[] {
  return Array.from({ length: most + 1 }, (_, k) => {
    let sum = 0;
    for (let i = k; i < values.length; i++) sum += Math.abs(values[i]! - values[i - k]!);
    return sum / Math.max(1, values.length - k);
  });
}

function variance(values: Float64Array): number {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length;
}
