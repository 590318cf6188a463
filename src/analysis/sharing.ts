/** How evenly shelves and sections carry the load. */
import type { ShareDeviation } from '../engine/result.ts';
import type { Span } from '../events/spans.ts';
import {
  type Case,
  channelsOf,
  extremeOf,
  meanSquareOf,
  ratedCurrent,
  trippedShelves,
  worst,
} from './case.ts';
import { extremeClearOf } from './clear-extremes.ts';
import { absent, type Reading } from './reading.ts';
import { holds, touches } from './spans.ts';

/** Later than this after an edge, event or walk-in sharing counts as steady. */
const settled_s = 0.5;

/** Steady share error, where the shelves' mean load lies from `from` up to `to` of their rating. */
export function readSteadyShare(c: Case, from_ratio: number, to_ratio: number): Reading {
  const { load, steady, reason } = readsMeans(c) ? shareOfMeans(c) : { ...shareOfMeter(c), reason: null };
  if (load === null) return absent('no shelf current was recorded');
  if (load < from_ratio || load >= to_ratio) {
    const range = Number.isFinite(to_ratio)
      ? `from ${100 * from_ratio} % to ${100 * to_ratio} %`
      : `from ${100 * from_ratio} %`;
    return absent(`holds ${range} load; the shelves' mean load is ${(100 * load).toFixed(1)} %`);
  }
  if (steady === null) return absent('no time in the window is later than 0.5 s after an edge');
  return { value: steady.ratio, node: steady.shelf, time_s: steady.time_s, reason };
}

/** The meter knows the largest only: when that lies where shelves walk in one by one, it judges nothing. */
export function readTransientShare(c: Case): Reading {
  const { transient } = c.result.share;
  if (transient === null) return absent('no edge or event in the window');
  if (holds(withoutShelves(c), transient.time_s)) {
    return absent(
      `the largest, at ${Number(transient.time_s.toFixed(3))} s, lies where shelves walk in one by one`,
    );
  }
  return { value: transient.ratio, node: transient.shelf, time_s: transient.time_s };
}

interface Sharing {
  /** Mean current of the shelves on line over their rating. */
  readonly load: number | null;
  readonly steady: ShareDeviation | null;
}

function shareOfMeter(c: Case): Sharing {
  return { load: meanLoad(c), steady: c.result.share.steady };
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

/**
 * Sharing off the 10 ms means of the shelves' currents, clear of AC loss, walk-in and 0.5 s after what the
 * story tells.
 */
function shareOfMeans(c: Case): Sharing & { readonly reason: string } {
  const { columns, from_s, width_s } = c.result.means;
  const out = new Set(trippedShelves(c.scenario).map((shelf) => shelf.id));
  const shelves = c.scenario.shelves.flatMap((shelf) => {
    const means = columns.get(`${shelf.id}.current_A`);
    if (means === undefined || out.has(shelf.id)) return [];
    return [{ id: shelf.id, means, rated: ratedCurrent(shelf.values) }];
  });
  const left_out = [...withoutShelves(c), ...unsettled(c)];
  let steady: ShareDeviation | null = null;
  let load = 0;
  let count = 0;
  const bins = shelves[0]?.means.length ?? 0;
  for (let j = 0; j < bins; j++) {
    const time_s = from_s + j * width_s;
    if (holds(left_out, time_s)) continue;
    let mean = 0;
    for (const { means, rated } of shelves) mean += means[j]! / rated / shelves.length;
    for (const { id, means, rated } of shelves) {
      const ratio = Math.abs(means[j]! / rated - mean);
      if (steady === null || ratio > steady.ratio) steady = { ratio, shelf: id, time_s };
    }
    load += mean;
    count++;
  }
  return {
    load: count === 0 ? null : load / count,
    steady,
    reason: 'from 10 ms means, clear of edges, AC loss and walk-in',
  };
}

/**
 * Largest trim over its clamp, clear of AC loss and walk-in; its highest value there, hence never kinder than
 * the steady one.
 */
export function readTrim(c: Case): Reading {
  const clamp_V = c.scenario.firmware.share.trim_limit_V;
  const left_out = withoutShelves(c);
  const trims = channelsOf(c.result, 'shelf-trim').flatMap(({ id, owner, index }) => {
    const extreme = left_out.length === 0 ? extremeOf(c.result, id) : extremeClearOf(c, index, left_out);
    if (extreme === null) return [];
    const down = -extreme.min > extreme.max;
    return [
      {
        owner,
        ratio: Math.max(extreme.max, -extreme.min) / clamp_V,
        time_s: down ? extreme.min_s : extreme.max_s,
      },
    ];
  });
  const most = worst(trims, (t) => t.ratio);
  if (most === null || !(clamp_V > 0)) return absent('no trim: the current share is off');
  return { value: most.ratio, node: most.owner, time_s: most.time_s };
}

/**
 * Shelf current of the sections: highest minus lowest, over their mean, clear of AC loss and walk-in. Sections
 * whose shelves on line are not rated alike carry unlike currents by design, and are not held against each other.
 */
export function readSectionBalance(c: Case): Reading {
  const out = trippedShelves(c.scenario);
  if (out.length > 0) return absent(`${out.map((s) => s.id).join(', ')} out: the sections are not equal`);
  const left_out = withoutShelves(c);
  const sums = c.scenario.sections.flatMap((section) => {
    const shelves = c.scenario.shelves.filter((shelf) => section.order.includes(shelf.id));
    if (shelves.length === 0) return [];
    let current = 0;
    let rated = 0;
    for (const shelf of shelves) {
      current += meanClearOf(c, shelf.id, left_out);
      rated += ratedCurrent(shelf.values);
    }
    return [{ id: section.id, current, rated, count: shelves.length }];
  });
  if (sums.some(({ rated }) => Math.abs(rated / sums[0]!.rated - 1) > 1e-6)) {
    const counts = sums.map(({ id, count }) => `${count} in ${id}`).join(', ');
    return absent(`the shelves of the sections are not rated alike: ${counts}`);
  }
  let total = 0;
  for (const { current } of sums) total += current;
  if (left_out.length > 0 && Number.isNaN(total)) return absent('no time in the window is clear of AC loss');
  if (sums.length < 2 || !(total > 0)) return absent('fewer than two sections carry current');
  const most = worst(sums, (s) => s.current)!;
  const least = worst(sums, (s) => -s.current)!;
  return {
    value: (most.current - least.current) / (total / sums.length),
    node: most.id,
    ...(left_out.length === 0 ? {} : { reason: 'clear of AC loss and walk-in' }),
  };
}

/** Mean current of a shelf clear of some spans, off its 10 ms means; NaN where nothing is left. */
function meanClearOf(c: Case, shelf: string, left_out: readonly Span[]): number {
  if (left_out.length === 0) return meanSquareOf(c.result, `${shelf}.current_A`)?.mean ?? Number.NaN;
  const { columns, from_s, width_s } = c.result.means;
  const means = columns.get(`${shelf}.current_A`);
  if (means === undefined) return Number.NaN;
  let sum = 0;
  let count = 0;
  for (let j = 0; j < means.length; j++) {
    if (touches(left_out, from_s + j * width_s, from_s + (j + 1) * width_s)) continue;
    sum += means[j]!;
    count++;
  }
  return sum / count;
}

/** Mean current of the shelves on line over their rating. */
function meanLoad(c: Case): number | null {
  const out = new Set(trippedShelves(c.scenario).map((shelf) => shelf.id));
  let current = 0;
  let rated = 0;
  for (const shelf of c.scenario.shelves) {
    const mean = meanSquareOf(c.result, `${shelf.id}.current_A`)?.mean;
    if (mean === undefined) continue;
    current += mean;
    if (!out.has(shelf.id)) rated += ratedCurrent(shelf.values);
  }
  return rated > 0 ? current / rated : null;
}
