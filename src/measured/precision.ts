/**
 * How well place and clock are known. Where what is left is noise, by least squares, and no better than the residuals
 * on the very samples that show the place (each over 1 − its leverage). Where it is not, the model is wrong somewhere:
 * the residuals' memory counts too (Bartlett's weights; W. K. Newey, K. D. West, Econometrica 55(3), 1987), and how
 * far apart channels and halves of the measurement put the place.
 */
import { type Fine, refine } from './fine.ts';
import { partOf } from './pair.ts';
import { wayThrough } from './way-through.ts';
import { type Whiteness, whitenessOf } from './whiteness.ts';

export interface Precision {
  /** Standard error of the time of the run at the first stamp [s], and of the clock. */
  readonly at_error_s: number;
  readonly rate_error_ratio: number;
  /** In the order of the channels. */
  readonly whiteness: readonly Whiteness[];
  readonly isNoise: boolean;
}

/**
 * What a clock that cannot be told is taken to be off, one standard deviation. Assumed: between a plain crystal (100 ppm)
 * and a logger that nobody has calibrated (1000 ppm).
 */
export const usualClock = 3e-4;
/** What the lines between steps leave of a place, of an interval or a millisecond, whichever is less. */
const finest = 0.005;

export function precisionOf(fine: Fine, withClock: boolean): Precision {
  const { channels, normal, middle_s } = fine;
  const whiteness = channels.map(({ left, byPlace, pair }) => whitenessOf(left, pair, byPlace));
  const isNoise = whiteness.every((w) => w.isNoise);
  const [pp, pc, cc] = normal;
  const determinant = pp * cc - pc * pc;
  const [spp, spc, scc] = meatOf(fine, isNoise ? null : Math.max(...whiteness.map(({ memory }) => memory)));
  // Rows of the inverse of the normal equations that give the clock, and the place at the first stamp.
  const clock: [number, number] = [-pc / determinant, pp / determinant];
  const variance = ([a, b]: [number, number]): number =>
    Math.max(a * a * pp + 2 * a * b * pc + b * b * cc, a * a * spp + 2 * a * b * spc + b * b * scc);
  const rate_variance = determinant > 0 ? variance(clock) : Number.POSITIVE_INFINITY;
  const least = finest * Math.min(1e-3, ...channels.map(({ pair }) => pair.interval_s));
  const spread = isNoise ? 0 : spreadOf(fine);
  let at_variance = variance([1 / pp, 0]);
  if (withClock) {
    const first: [number, number] = [
      cc / determinant - middle_s * clock[0],
      -pc / determinant - middle_s * clock[1],
    ];
    at_variance = variance(first);
  } else {
    // The clock is taken as right; what it may be off shifts the place by its lever, from the first stamp to where
    // the measurement shows its place.
    const lever_s = middle_s + pc / pp;
    const rate = clockSeen(fine, determinant);
    const known = 1 / (1 / (usualClock * usualClock) + 1 / rate_variance);
    const likely = (rate * known) / rate_variance;
    at_variance += lever_s * lever_s * (known + likely * likely);
  }
  return {
    at_error_s: Math.sqrt(at_variance + least * least + spread * spread),
    rate_error_ratio: Math.sqrt(rate_variance),
    whiteness,
    isNoise,
  };
}

/** The clock that one more step of least squares would take. */
function clockSeen({ channels, normal: [pp, pc] }: Fine, determinant: number): number {
  let [p, c] = [0, 0];
  for (const { left, byPlace, byClock, sigma } of channels) {
    for (let i = 0; i < left.length; i++) {
      p += (byPlace[i]! * left[i]!) / (sigma * sigma);
      c += (byClock[i]! * left[i]!) / (sigma * sigma);
    }
  }
  const rate = (pp * c - pc * p) / determinant;
  return Number.isFinite(rate) ? rate : 0;
}

/** Σ of the products of the scores, over lags as long as the memory; no lags where what is left is noise. */
function meatOf({ channels, normal: [pp, , cc] }: Fine, memory: number | null): [number, number, number] {
  const total: [number, number, number] = [0, 0, 0];
  for (const channel of channels) {
    const { left, byPlace, byClock, sigma } = channel;
    const weight = 1 / (sigma * sigma);
    const place = new Float64Array(left.length);
    const clock = new Float64Array(left.length);
    for (let i = 0; i < left.length; i++) {
      const leverage =
        weight * ((byPlace[i]! * byPlace[i]!) / pp + (cc > 0 ? (byClock[i]! * byClock[i]!) / cc : 0));
      const e = left[i]! / Math.max(0.2, 1 - leverage);
      place[i] = weight * byPlace[i]! * e;
      clock[i] = weight * byClock[i]! * e;
    }
    const lags = memory === null ? 0 : Math.min(Math.floor(left.length / 4), Math.ceil(2 * memory));
    for (let lag = 0; lag <= lags; lag++) {
      const share = (lag === 0 ? 1 : 2) * (1 - lag / (lags + 1));
      for (let i = lag; i < left.length; i++) {
        total[0] += share * place[i]! * place[i - lag]!;
        total[1] += (share * (place[i]! * clock[i - lag]! + clock[i]! * place[i - lag]!)) / 2;
        total[2] += share * clock[i]! * clock[i - lag]!;
      }
    }
  }
  return total;
}

/** How far apart single channels and the two halves of what shows the place put it, beyond their own errors [s]. */
function spreadOf(fine: Fine): number {
  const { at_s, rate_ratio, channels } = fine;
  const alone = channels.length > 1 ? channels.map(({ pair }) => [pair]) : [];
  const half_s = wayThrough(channels, 1 / 2);
  const halves = [
    channels.map(({ pair }) => partOf(pair, Number.NEGATIVE_INFINITY, half_s)),
    channels.map(({ pair }) => partOf(pair, half_s, Number.POSITIVE_INFINITY)),
  ];
  let worst = 0;
  for (const pairs of [...alone, ...halves]) {
    const found = refine(pairs, at_s, rate_ratio, false);
    const own = 1 / found.normal[0];
    const off = (found.at_s - at_s) ** 2 - own;
    // A part that shows no place of its own says nothing about the whole.
    if (Number.isFinite(off) && own < off) worst = Math.max(worst, off);
  }
  return Math.sqrt(worst);
}
