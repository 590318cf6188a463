/**
 * Where a measurement lies on the clock of the run: coarse by shape over the whole run, then which of the places that
 * come near is the one, then fine, then the clock where the data determine it.
 */
import { exponential } from '../base/exponential.ts';
import { clockLineOf } from './clock-rate.ts';
import { compareEverywhere, hillsOf } from './coarse.ts';
import { climb, type Fine, refine } from './fine.ts';
import { profileAbout, reachAbout, topOf, valley } from './likelihood-profile.ts';
import type { MeasuredPair } from './pair.ts';
import { type PartsDisagree, partsDisagree } from './parts-disagree.ts';
import { type Precision, precisionOf } from './precision.ts';

export interface PlacedAt {
  readonly fine: Fine;
  readonly precision: Precision;
  readonly clock: 'taken out' | 'not told apart';
  /**
   * Probability of this place against the others that come near, by what is left at each and how wide its hill is, and
   * against parts that lie at places of their own.
   */
  readonly confidence_ratio: number;
  /** Places that agree as well, or as well with less of the measurement inside the run [s], in order of time. */
  readonly as_well_s: readonly number[];
  /** Its parts lie at places of their own; null where they do not. */
  readonly parts: PartsDisagree | null;
}

/** A rate is told apart from none beyond this many standard errors, and is a clock's below this. */
const clearly = 3;
const mostRate = 0.01;
/** 95 % of a normal number lies within so many deviations. */
export const within95 = 1.96;
/** Hills that are looked at closely. */
const closely = 12;
/** A place agrees as well where it explains a sample within this share as well. */
const alike = 0.02;

/**
 * null where nothing of the shape agrees anywhere. `near_s`: about where somebody knows it to lie; it chooses between
 * places that agree alike, where it is twice as near to one as to the next.
 */
export function placeOf(pairs: readonly MeasuredPair[], near_s: number | null = null): PlacedAt | null {
  if (pairs.length === 0) return null;
  const coarse = compareEverywhere(pairs);
  const [top] = hillsOf(coarse, 0);
  if (top === undefined) return null;
  const near = (at_s: number, rate_ratio: number): Fine => {
    const climbed = climb(pairs, at_s, coarse.step_s, rate_ratio);
    const found = refine(pairs, climbed, rate_ratio, false);
    const higher = refine(pairs, topOf(profileAbout(pairs, found.at_s, rate_ratio)), rate_ratio, false);
    return higher.gained > found.gained ? higher : found;
  };
  const apart_s = 2 * coarse.step_s;
  let best = clocked(pairs, near(top, 0));
  const memory = (): number => Math.max(1, ...best.precision.whiteness.map((w) => w.memory));
  const hills = hillsOf(coarse, valley * memory()).slice(0, closely);
  let others = hills.map((at_s) => near(at_s, best.fine.rate_ratio));
  const higher = others.filter(({ gained }) => gained > best.fine.gained);
  if (higher.length > 0) {
    const highest = higher.reduce((a, b) => (b.gained > a.gained ? b : a));
    const tried = clocked(pairs, near(highest.at_s, 0));
    if (tried.fine.gained > best.fine.gained) best = tried;
  }
  others = others.filter(({ at_s }) => Math.abs(at_s - best.fine.at_s) > apart_s);
  const each = (fine: Fine): number => fine.gained / samplesOf(fine);
  if (near_s !== null) {
    const rivals = [best.fine, ...others].filter((fine) => each(fine) > (1 - alike) * each(best.fine));
    const chosen = clearlyNearest(rivals, near_s);
    if (chosen !== null) {
      if (chosen !== best.fine) best = clocked(pairs, near(chosen.at_s, 0));
      others = others.filter((other) => !rivals.includes(other));
    }
  }
  const run_s = coarse.step_s * coarse.gained.length;
  const odds = others.reduce((sum, other) => {
    const wider = widthOf(other, run_s) / widthOf(best.fine, run_s);
    return sum + wider * exponential((other.gained - best.fine.gained) / memory());
  }, 0);
  const as_well_s = others
    .filter((other) => each(other) > (1 - alike) * each(best.fine))
    .map(({ at_s }) => at_s)
    .sort((a, b) => a - b);
  const parts = partsDisagree(pairs, best.fine);
  const apart = parts === null ? 0 : 1 / exponential(-parts.gained);
  return {
    ...best,
    precision: asFarAs(pairs, best, memory()),
    confidence_ratio: 1 / (1 + odds + apart),
    as_well_s,
    parts,
  };
}

/** The error of the place is no less than what the likelihood about it leaves open. */
function asFarAs(
  pairs: readonly MeasuredPair[],
  { fine, precision }: Pick<PlacedAt, 'fine' | 'precision'>,
  memory: number,
): Precision {
  const reach_s = reachAbout(pairs, fine, memory);
  return {
    ...precision,
    at_error_s: Math.max(precision.at_error_s, reach_s / within95),
  };
}

/** The place that lies at most half as far from a time as the next one; null where none does. */
function clearlyNearest(places: readonly Fine[], near_s: number): Fine | null {
  const far = ({ at_s }: Fine): number => Math.abs(at_s - near_s);
  const [first, second] = [...places].sort((a, b) => far(a) - far(b));
  if (first === undefined) return null;
  return second === undefined || far(first) <= far(second) / 2 ? first : null;
}

/** Standard error of the place on its hill, by the slopes [s]: a wide hill holds more places than a narrow one as high. */
function widthOf({ normal: [pp] }: Fine, most_s: number): number {
  return Math.min(most_s, 1 / Math.sqrt(pp));
}

function samplesOf({ channels }: Fine): number {
  return channels.reduce((sum, { left }) => sum + left.length, 0);
}

/** With the clock, where edges in several pieces of the measurement show it: one edge and its tail tell none. */
function clocked(
  pairs: readonly MeasuredPair[],
  still: Fine,
): Pick<PlacedAt, 'fine' | 'precision' | 'clock'> {
  const without = {
    fine: still,
    precision: precisionOf(still, false),
    clock: 'not told apart' as const,
  };
  const line = clockLineOf(pairs, still.at_s, false);
  const begins = line === null ? [still] : [still, line];
  const fine = begins
    .map(({ at_s, rate_ratio }) => refine(pairs, at_s, rate_ratio, true))
    .reduce((a, b) => (b.gained > a.gained ? b : a));
  const precision = precisionOf(fine, true);
  const edges = clockLineOf(pairs, still.at_s, true);
  const rate = Math.abs(fine.rate_ratio);
  const error_ratio = Math.max(
    precision.rate_error_ratio,
    edges === null ? Number.POSITIVE_INFINITY : precision.isNoise ? 0 : edges.error_ratio,
    // What the clock explains, Δ ln L = (r/σ)²/2, says the same again where the curve is no parabola: an edge between
    // two samples is met by a large rate or by none.
    rate / Math.sqrt(2 * Math.max(0, fine.gained - still.gained)),
  );
  if (!(rate > clearly * error_ratio && rate < mostRate)) return without;
  return {
    fine,
    precision: { ...precision, rate_error_ratio: error_ratio },
    clock: 'taken out',
  };
}
