/**
 * When the AC limits apply.
 *
 * A start or stop is an event, or a change of the load's mean over one period (over 1 s where it has none) by
 * more than 20 % of rated. For 10 s after it bands and dynamic range do not apply; ramps and bus limits do.
 * From AC loss until walk-in begins no AC limit applies; during walk-in only the ramp over 1 s.
 */

import type { Span } from '../events/spans.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { without } from './spans.ts';

export const settleTime_s = 10;
const change_ratio = 0.2;
const shortest_s = 0.05;

export interface Applies {
  /** Where bands and dynamic range are judged. */
  readonly steady: readonly Span[];
  /** No AC limit at all: AC loss until walk-in begins. */
  readonly lost: readonly Span[];
  /** Only the ramp over 1 s. */
  readonly walkIn: readonly Span[];
  /** What started or stopped, for the reasons. */
  readonly starts: readonly Span[];
}

export interface LoadMeans {
  readonly means: Float64Array;
  readonly from_s: number;
  readonly width_s: number;
}

export function appliesIn(
  scenario: Pick<Scenario, 'events' | 'shelves' | 'rated_W'>,
  window: Span,
  load: LoadMeans | null,
  period_s: number | null,
): Applies {
  const { lost, walkIn } = outages(scenario);
  const events = scenario.events.map((event) => ({ from_s: event.at_s, to_s: event.at_s + settleTime_s }));
  const afterWalkIn = walkIn.map((span) => ({ from_s: span.from_s, to_s: span.to_s + settleTime_s }));
  const changes =
    load === null ? [] : loadChanges(load, change_ratio * scenario.rated_W, period_s ?? 1, period_s === null);
  const starts = [...events, ...afterWalkIn, ...changes].sort((a, b) => a.from_s - b.from_s);
  return { steady: without(window, [...starts, ...lost, ...walkIn]), lost, walkIn, starts };
}

/** AC loss to the first shelf's walk-in, and from there to the end of the last shelf's. */
function outages(scenario: Pick<Scenario, 'events' | 'shelves'>): { lost: Span[]; walkIn: Span[] } {
  const lost: Span[] = [];
  const walkIn: Span[] = [];
  const events = [...scenario.events].sort((a, b) => a.at_s - b.at_s);
  for (const loss of events) {
    if (loss.what !== 'ac-loss') continue;
    const shelves = scenario.shelves.filter((shelf) => loss.unit === 'all' || shelf.feeder === loss.unit);
    const back = events.find(
      (e) =>
        e.what === 'ac-return' &&
        e.at_s > loss.at_s &&
        (e.unit === loss.unit || e.unit === 'all' || loss.unit === 'all'),
    );
    if (back === undefined || shelves.length === 0) {
      lost.push({ from_s: loss.at_s, to_s: back?.at_s ?? Number.POSITIVE_INFINITY });
      continue;
    }
    const begin = back.at_s + Math.min(...shelves.map((shelf) => shelf.values.start_delay_s));
    const end =
      back.at_s + Math.max(...shelves.map((shelf) => shelf.values.start_delay_s + shelf.values.walk_in_s));
    lost.push({ from_s: loss.at_s, to_s: begin });
    walkIn.push({ from_s: begin, to_s: end });
  }
  return { lost, walkIn };
}

/**
 * Stretches around which adjacent means over length_s differ by more than threshold_W, each from where the load
 * begins to move there to 10 s after it has moved: half a ramp is no steady operation. A period that is no whole number of the means is interpolated.
 * `cutShort`: near the ends of the record the windows may be shorter (down to 0.05 s), so that a jump there
 * is seen too; not for a load with a beat, whose means over less than the beat differ by themselves.
 */
export function loadChanges(
  load: LoadMeans,
  threshold_W: number,
  length_s: number,
  cutShort: boolean,
): Span[] {
  const { means, from_s, width_s } = load;
  const n = means.length;
  const sums = new Float64Array(n + 1);
  for (let j = 0; j < n; j++) sums[j + 1] = sums[j]! + means[j]!;
  const sumTo = (x: number): number => {
    const j = Math.min(Math.floor(x), n - 1);
    return sums[j]! + (x - j) * means[j]!;
  };
  const w = length_s / width_s;
  const least = cutShort ? Math.min(w, shortest_s / width_s) : w;
  const changes: Span[] = [];
  let worst = 0;
  let first = 0;
  let last = 0;
  let sign = 1;
  // A quarter of the slowest ramp that counts as a change.
  const moves_W = threshold_W / w / 4;
  const isMoving = (j: number): boolean => j > 0 && j < n && (means[j]! - means[j - 1]!) * sign > moves_W;
  const close = (): void => {
    if (worst > 0) {
      while (isMoving(first - 1)) first--;
      while (isMoving(last + 1)) last++;
      changes.push({ from_s: from_s + first * width_s, to_s: from_s + last * width_s + settleTime_s });
    }
    worst = 0;
  };
  for (let j = Math.ceil(least); j + least <= n; j++) {
    const before = Math.min(w, j);
    const after = Math.min(w, n - j);
    const change = (sumTo(j + after) - sums[j]!) / after - (sums[j]! - sumTo(j - before)) / before;
    const difference = Math.abs(change);
    if (difference <= threshold_W) {
      close();
    } else if (difference > worst * (1 + 1e-3)) {
      worst = difference;
      sign = Math.sign(change);
      first = j;
      last = j;
    } else if (difference >= worst * (1 - 1e-3)) {
      last = j;
    }
  }
  close();
  return changes;
}
