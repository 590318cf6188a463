/**
 * Fine placing by least squares: m_i = a + b s(τ + (1 + r) t_i) + e_i, where offset a and gain b are each channel's own
 * and the place τ and the clock r are common to all. Channels are weighted by what is left of each, 1/σ². What a shift
 * has in common with an offset or a gain is projected out as far as the instrument's class leaves them open: by shape
 * alone the tail of an exponential, which a shift and a gain change alike, shows no place.
 */
import { agreementOf, type Sums } from './agreement.ts';
import type { MeasuredPair } from './pair.ts';
import { centred, dot, openTo } from './within-class.ts';

/** One channel at a place: its residuals and their sensitivities, in the order of time. */
export interface Fitted {
  readonly pair: MeasuredPair;
  readonly time_s: Float64Array;
  /** What is left, e. */
  readonly left: Float64Array;
  /** de/dτ with its sign turned, less offset and gain as far as they are open: b (ds/dt)⊥; and the same by the clock about the middle. */
  readonly byPlace: Float64Array;
  readonly byClock: Float64Array;
  readonly sigma: number;
  readonly gain: number;
  readonly correlation_ratio: number;
  readonly gained: number;
}

export interface Fine {
  /** Time of the run at the first stamp; clock: seconds of the run in a second of the measurement, less 1. */
  readonly at_s: number;
  readonly rate_ratio: number;
  readonly channels: readonly Fitted[];
  /** Normal equations of place (at the middle) and clock: pp, pc, cc. */
  readonly normal: readonly [number, number, number];
  /** Time of the measurement about which the clock turns [s]. */
  readonly middle_s: number;
  readonly gained: number;
}

const mostRounds = 20;
/** Slopes are taken over a quarter of an interval to either side, or this where that is longer [s]. */
const mostHalf_s = 2.5e-4;

export function gainedAt(pairs: readonly MeasuredPair[], at_s: number, rate_ratio: number): number {
  return pairs.reduce((sum, pair) => sum + (sumsAt(pair, at_s, rate_ratio)?.gained ?? 0), 0);
}

function sumsAt({ time_s, values, shown, noise, within }: MeasuredPair, at_s: number, rate_ratio: number) {
  const [s0, m0] = [shown.at(shown.from_s), values[0]!];
  const sums: Sums = { n: 0, s: 0, m: 0, ss: 0, mm: 0, sm: 0, apart: m0 - s0 };
  for (let i = 0; i < time_s.length; i++) {
    const simulated = shown.at(at_s + (1 + rate_ratio) * time_s[i]!);
    if (Number.isNaN(simulated)) continue;
    const [x, y] = [simulated - s0, values[i]! - m0];
    sums.n++;
    sums.s += x;
    sums.m += y;
    sums.ss += x * x;
    sums.mm += y * y;
    sums.sm += x * y;
  }
  return sums.n < 4 ? null : agreementOf(sums, noise, within);
}

/** The top near a place: the best of seven about it, again and again in a third of the step. */
export function climb(
  pairs: readonly MeasuredPair[],
  at_s: number,
  step_s: number,
  rate_ratio: number,
): number {
  let [best, top, step] = [at_s, gainedAt(pairs, at_s, rate_ratio), step_s / 2];
  for (let round = 0; round < 8 && step > 1e-5; round++) {
    const from = best;
    for (let k = -3; k <= 3; k++) {
      const tried = gainedAt(pairs, from + k * step, rate_ratio);
      if (tried > top) [best, top] = [from + k * step, tried];
    }
    step /= 3;
  }
  return best;
}

/** The best place near `at_s`, with the clock or at a given one. Gauss and Newton's steps, halved until they gain. */
export function refine(
  pairs: readonly MeasuredPair[],
  at_s: number,
  rate_ratio: number,
  withClock: boolean,
): Fine {
  let best = fittedAt(pairs, at_s, rate_ratio);
  for (let round = 0; round < mostRounds; round++) {
    const { middle_s } = best;
    const [byPlace, byClock] = stepOf(best, withClock);
    if (!Number.isFinite(byPlace + byClock)) return best;
    let next: Fine | null = null;
    for (let share = 1; share > 1e-3 && next === null; share /= 3) {
      const rate = best.rate_ratio + share * byClock;
      const at = best.at_s + share * (byPlace - middle_s * byClock);
      const tried = fittedAt(pairs, at, rate);
      if (tried.gained > best.gained) next = tried;
    }
    if (next === null) return best;
    const moved = Math.abs(next.at_s - best.at_s) + middle_s * Math.abs(next.rate_ratio - best.rate_ratio);
    best = next;
    if (moved < 1e-8) return best;
  }
  return best;
}

function stepOf({ channels, normal: [pp, pc, cc] }: Fine, withClock: boolean): [number, number] {
  let [p, c] = [0, 0];
  for (const { left, byPlace, byClock, sigma } of channels) {
    for (let i = 0; i < left.length; i++) {
      p += (byPlace[i]! * left[i]!) / (sigma * sigma);
      c += (byClock[i]! * left[i]!) / (sigma * sigma);
    }
  }
  if (!withClock) return [p / pp, 0];
  const determinant = pp * cc - pc * pc;
  return [(cc * p - pc * c) / determinant, (pp * c - pc * p) / determinant];
}

export function fittedAt(pairs: readonly MeasuredPair[], at_s: number, rate_ratio: number): Fine {
  const ends = pairs.flatMap(({ time_s }) => (time_s.length === 0 ? [] : [time_s[0]!, time_s.at(-1)!]));
  const middle_s = ends.length === 0 ? 0 : (Math.min(...ends) + Math.max(...ends)) / 2;
  const channels = pairs.flatMap((pair) => fitted(pair, at_s, rate_ratio, middle_s) ?? []);
  let [pp, pc, cc, gained] = [0, 0, 0, 0];
  for (const channel of channels) {
    const weight = 1 / (channel.sigma * channel.sigma);
    gained += channel.gained;
    channel.byPlace.forEach((byPlace, i) => {
      const byClock = channel.byClock[i]!;
      pp += weight * byPlace * byPlace;
      pc += weight * byPlace * byClock;
      cc += weight * byClock * byClock;
    });
  }
  return { at_s, rate_ratio, channels, normal: [pp, pc, cc], middle_s, gained };
}

function fitted(pair: MeasuredPair, at_s: number, rate_ratio: number, middle_s: number): Fitted | null {
  const found = sumsAt(pair, at_s, rate_ratio);
  if (found === null) return null;
  const inside: number[] = [];
  const simulated: number[] = [];
  pair.time_s.forEach((t, i) => {
    const s = pair.shown.at(at_s + (1 + rate_ratio) * t);
    if (Number.isNaN(s)) return;
    inside.push(i);
    simulated.push(s);
  });
  const n = inside.length;
  const x = centred(Float64Array.from(simulated));
  const y = centred(Float64Array.from(inside, (i) => pair.values[i]!));
  const time_s = Float64Array.from(inside, (i) => pair.time_s[i]!);
  const half_s = Math.min(mostHalf_s, pair.interval_s / 4);
  const slope = time_s.map((t) => {
    const rise = pair.shown.slope(at_s + (1 + rate_ratio) * t, half_s);
    return Number.isNaN(rise) ? 0 : found.gain * rise;
  });
  const byPlace = openTo(slope, x, found);
  const byClock = openTo(
    slope.map((rise, i) => rise * (time_s[i]! - middle_s)),
    x,
    found,
  );
  const left = y.map((value, i) => value - found.gain * x[i]! + found.bias);
  // Four numbers are found by the samples: offset, gain, place and clock.
  const spread = Math.sqrt(dot(left, left) / Math.max(1, n - 3));
  const sigma = Math.max(spread, 1e-3 * pair.noise);
  const { gain, correlation_ratio, gained } = found;
  return {
    pair,
    time_s,
    left,
    byPlace,
    byClock,
    sigma,
    gain,
    correlation_ratio,
    gained,
  };
}
