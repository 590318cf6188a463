/**
 * What the clock of the file does to a fit. It is taken as right within what placing knows of it, ± 300 ppm where the
 * data do not tell, and that goes into every interval. Where what is left shows how far it is off within that, it is taken
 * out (`beside-clock.ts`); a clock further off is a fault. Where nothing shows it, the report says how far it would move
 * each value. To first order.
 */
import type { Matrix } from 'ml-matrix';
import { seldom } from '../../measured/whiteness.ts';
import type { Adjusted } from './adjusted.ts';
import { beyondFitted, followedBy } from './beyond-fitted.ts';
import type { Confidence } from './confidence.ts';
import type { FirstPlace } from './points.ts';
import { sumOf } from './residuals.ts';

export interface ClockOfFit {
  /** How fast the stamps run against the run, less 1, as placing and the fit found it and took it out; null: taken as right. */
  readonly taken_out_ratio: number | null;
  /** What the clock may be off beyond that without being seen or assumed away, one standard deviation. */
  readonly known_ratio: number;
  /** How fast the stamps run beyond what placing took out, as the readings show it, with its standard error; null where nothing shows it. */
  readonly seen_ratio: number | null;
  readonly seen_error_ratio: number | null;
  /** What is left shows a clock that is further off than is taken for possible. */
  readonly is_off: boolean;
  /** Stamps that run faster by less than this would not be seen. */
  readonly hidden_ratio: number;
  /** How far a value would move by a clock so much faster, by path [its unit]; those that leave their interval noticeably. */
  readonly moves: Readonly<Record<string, number>>;
}

export interface ClockShare {
  readonly clock: Omit<ClockOfFit, 'moves' | 'taken_out_ratio'>;
  /** Move of each value, of its box, for stamps that run faster by a ratio of 1. */
  readonly moves: readonly number[];
  /** How much faster the stamps are likely to run than what was taken out. */
  readonly untaken_ratio: number;
  /** Of a clock that is off, what readings and prior together leave in the values: 1 where nothing shows it. */
  readonly left_share: number;
  /** What is known of the clock, one standard deviation: that adds to what each interval leaves open. */
  readonly spread_ratio: number;
}

/** A clock beyond this is looked for as a fault, not said as a doubt. */
export const grossClock = 0.01;
/** Half of the difference by which the effect of a clock is taken. */
export const clockStep = 5e-4;

export interface ClockCase {
  /** What is left, and what it is by stamps that run faster by `clockStep`, and slower. */
  readonly left: Float64Array;
  readonly faster: Float64Array;
  readonly slower: Float64Array;
  readonly sensitivities: Matrix;
  /** Of an independent residual. */
  readonly variance: number;
  /** One standard deviation of what is known of the clock beforehand. */
  readonly known_ratio: number;
  /** How fast the fit has taken the stamps to run; 0: as placing left them. */
  readonly taken_ratio: number;
}

export function clockShare(of: ClockCase): ClockShare {
  const { left, faster, slower, sensitivities, variance, known_ratio, taken_ratio } = of;
  // A sample that leaves the run by such a clock says nothing.
  const effect = left.map((_, i) =>
    isShown(faster[i]!) && isShown(slower[i]!) ? (faster[i]! - slower[i]!) / (2 * clockStep) : 0,
  );
  const own = beyondFitted(effect, sensitivities);
  const size = sumOf(own);
  const error = size > 0 ? Math.sqrt(variance / size) : Number.POSITIVE_INFINITY;
  const seen = taken_ratio - (size > 0 ? dot(own, left) / size : 0);
  const together = Math.hypot(error, known_ratio);
  const posterior = known_ratio === 0 ? 0 : 1 / (1 / known_ratio ** 2 + 1 / error ** 2);
  const left_share = 1 - posterior / error ** 2;
  const untaken_ratio = (1 - left_share) * seen - taken_ratio;
  const isSeen = error < grossClock;
  const is_off = known_ratio > 0 && Math.abs(seen) > seldom * together;
  return {
    clock: {
      known_ratio: taken_ratio === 0 || is_off ? known_ratio : Math.sqrt(posterior),
      seen_ratio: isSeen ? seen : null,
      seen_error_ratio: isSeen ? error : null,
      is_off,
      hidden_ratio: Math.min(grossClock, seldom * together),
    },
    moves: followedBy(effect, sensitivities).map((move) => -move),
    untaken_ratio,
    left_share,
    spread_ratio: Math.hypot(Math.sqrt(posterior), untaken_ratio),
  };
}

/** Residuals of samples that the run does not reach are set far beyond any other. */
function isShown(e: number): boolean {
  return Math.abs(e) < 1e3;
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

/** Half widths with what the clock leaves open beside noise. */
export function beyondClock(sharp: Confidence, byClock: readonly number[]): Confidence {
  return {
    ...sharp,
    halfWidths: sharp.halfWidths.map((half, j) => (half === null ? null : Math.hypot(half, byClock[j]!))),
  };
}

/** A move by less than this share of the half width of an interval is not worth a word. */
const leastMove = 0.25;

/** For the report; `halfWidths`: of the intervals, of each box. */
export function clockOfFit(
  { clock, moves, left_share }: ClockShare,
  { rate_ratio }: FirstPlace,
  adjusted: readonly Adjusted[],
  halfWidths: Confidence['halfWidths'],
): ClockOfFit {
  return {
    ...clock,
    taken_out_ratio: rate_ratio === 0 ? null : 1 / (1 + rate_ratio) - 1,
    moves: Object.fromEntries(
      adjusted.flatMap(({ path, low, high }, j) => {
        const [half, move] = [halfWidths[j] ?? null, moves[j]! * left_share * clock.hidden_ratio];
        return half !== null && Math.abs(move) > leastMove * half ? [[path, move * (high - low)]] : [];
      }),
    ),
  };
}
