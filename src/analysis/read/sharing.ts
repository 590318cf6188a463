/** How evenly shelves carry the load, at rest and after edges. */
import type { ShareDeviation } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import { type Case, meanSquareOf, ratedCurrent, repeated } from '../record/case.ts';
import { once } from '../record/once.ts';
import { holds, joined, shareOf } from '../record/spans.ts';
import { OnLine, type ShelfMeans, shelfMeans } from './on-line.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

/** Later than this after an edge, event or walk-in sharing counts as steady. */
const settled_s = 0.5;

/**
 * Steady share error while the shelves' load lies from `from` up to `to` of their rating. Where the load stays in one
 * such range the meter's own value is taken, else that of 10 ms means, each judged by the load it was carried at.
 */
export function readSteadyShare(c: Case, from_ratio: number, to_ratio: number): Reading {
  if (c.scenario.shelves.length < 2) return cannotArise('a single shelf shares with no other');
  const loads = loadsOf(c);
  if (loads.length === 0) return notShown('at no time in the window are shelves on line with AC');
  const isIn = (load: number): boolean => load >= from_ratio && load < to_ratio;
  let count = 0;
  for (let j = 0; j < loads.length; j++) if (isIn(loads[j]!)) count++;
  if (count === 0) {
    const [low, high] = ends(loads).map((x) => (100 * x).toFixed(0));
    const carried = low === high ? `${low} %` : `${low} to ${high} %`;
    return cannotArise(`holds ${rangeWords(from_ratio, to_ratio)} load; the shelves carry ${carried}`);
  }
  const { steady, share_seen, reason } =
    count < loads.length || readsMeans(c)
      ? shareOfMeans(c, isIn)
      : { steady: c.result.share.steady, share_seen: null, reason: null };
  if (steady === null) {
    const never = `the load never rests for ${settled_s} s at ${rangeWords(from_ratio, to_ratio)}`;
    return repeated(c) === null ? notShown(never) : cannotArise(never);
  }
  return { value: steady.ratio, node: steady.shelf, time_s: steady.time_s, share_seen, reason };
}

/** The meter knows the largest only: when that lies where shelves walk in one by one, it judges nothing. */
export function readTransientShare(c: Case): Reading {
  const { transient } = c.result.share;
  if (c.scenario.shelves.length < 2) return cannotArise('a single shelf shares with no other');
  if (transient === null) {
    const nothing = 'no edge or event in the window';
    return repeated(c) === null ? notShown(nothing) : cannotArise(nothing);
  }
  if (holds(withoutShelves(c), transient.time_s)) {
    const at_s = Number(transient.time_s.toFixed(3));
    return notShown(`the largest, at ${at_s} s, falls where shelves are without AC or walk in one by one`);
  }
  return {
    value: transient.ratio,
    node: transient.shelf,
    time_s: transient.time_s,
    share_seen: 1 - shareOf(c.result.window, withoutShelves(c)),
  };
}

/** Shelves without AC or in walk-in cannot share: from AC loss to 0.5 s after the last walk-in. */
export function withoutShelves(c: Case): Span[] {
  return [...c.applies.lost, ...c.applies.walkIn].map(({ from_s, to_s }) => ({
    from_s,
    to_s: to_s + settled_s,
  }));
}

/**
 * Whether the meter's steady deviation cannot stand: shelves walk in, or its largest lies within 0.5 s of an
 * edge that the engine had no need to mark and the means of the load show.
 */
function readsMeans(c: Case): boolean {
  const { steady } = c.result.share;
  if (withoutShelves(c).length > 0) return true;
  return steady !== null && holds(unsettled(c), steady.time_s);
}

/** From each entry of the story to 0.5 s later. A window of a load that repeats begins where a period ended. */
function unsettled(c: Case): Span[] {
  const { width_s } = c.result.means;
  const after = (time_s: number): Span => ({ from_s: time_s - width_s, to_s: time_s + settled_s });
  const begin = c.period_s === null ? [] : [after(c.result.window.from_s)];
  return [...begin, ...c.story.map(({ time_s }) => after(time_s))];
}

/** Mean current over rating of the shelves on line, in each 10 ms with AC; of the window where no means were kept. */
const loadsOf = once((c: Case): Float64Array => {
  const shelves = shelfMeans(c);
  if (shelves.length === 0) {
    const loads = c.scenario.shelves.flatMap(({ id, values }) => {
      const mean = meanSquareOf(c.result, `${id}.current_A`)?.mean;
      return mean === undefined ? [] : [mean / ratedCurrent(values)];
    });
    return Float64Array.from(loads.length === 0 ? [] : [loads.reduce((a, b) => a + b, 0) / loads.length]);
  }
  const loads = new Float64Array(shelves[0]!.means.length);
  const line = new OnLine(c, shelves, withoutShelves(c));
  let count = 0;
  for (let j = 0; j < loads.length; j++) {
    const on = line.at(j);
    if (on !== null && on.length > 0) loads[count++] = meanOf(on, j);
  }
  return loads.subarray(0, count);
});

/** Mean of what shelves carry over their rating in mean j; 0 of none. */
function meanOf(on: readonly ShelfMeans[], j: number): number {
  let sum = 0;
  for (const { means, rated } of on) sum += means[j]! / rated;
  return sum / Math.max(1, on.length);
}

/** Largest deviation of a 10 ms mean, clear of AC loss, walk-in and 0.5 s after what the story tells. */
function shareOfMeans(
  c: Case,
  isIn: (load: number) => boolean,
): { readonly steady: ShareDeviation | null; readonly share_seen: number; readonly reason: string } {
  const { from_s, width_s } = c.result.means;
  const shelves = shelfMeans(c);
  const bins = shelves[0]?.means.length ?? 0;
  const line = new OnLine(c, shelves, joined([...withoutShelves(c), ...unsettled(c)]));
  let steady: ShareDeviation | null = null;
  let count = 0;
  for (let j = 0; j < bins; j++) {
    const on = line.at(j);
    if (on === null) continue;
    const mean = meanOf(on, j);
    if (!isIn(mean)) continue;
    count++;
    for (const { id, means, rated } of on) {
      const ratio = Math.abs(means[j]! / rated - mean);
      if (steady === null || ratio > steady.ratio)
        steady = { ratio, shelf: id, time_s: from_s + j * width_s };
    }
  }
  return {
    steady,
    share_seen: bins === 0 ? 0 : count / bins,
    reason: 'from 10 ms means, clear of edges, AC loss and walk-in',
  };
}

function rangeWords(from_ratio: number, to_ratio: number): string {
  return Number.isFinite(to_ratio)
    ? `from ${100 * from_ratio} % to ${100 * to_ratio} %`
    : `from ${100 * from_ratio} %`;
}

function ends(values: Float64Array): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < values.length; j++) {
    if (values[j]! < low) low = values[j]!;
    if (values[j]! > high) high = values[j]!;
  }
  return [low, high];
}
