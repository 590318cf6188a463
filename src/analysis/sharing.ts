/** How evenly shelves and sections carry the load. */
import {
  type Case,
  channelsOf,
  extremeOf,
  meanSquareOf,
  ratedCurrent,
  trippedShelves,
  worst,
} from './case.ts';
import { absent, type Reading } from './reading.ts';

/** Steady share error, where the shelves' mean load lies from `from` up to `to` of their rating. */
export function readSteadyShare(c: Case, from_ratio: number, to_ratio: number): Reading {
  const load = meanLoad(c);
  if (load === null) return absent('no shelf current was recorded');
  if (load < from_ratio || load >= to_ratio) {
    const range = Number.isFinite(to_ratio)
      ? `from ${100 * from_ratio} % to ${100 * to_ratio} %`
      : `from ${100 * from_ratio} %`;
    return absent(`holds ${range} load; the shelves' mean load is ${(100 * load).toFixed(1)} %`);
  }
  const { steady } = c.result.share;
  if (steady === null) return absent('no time in the window is later than 0.5 s after an edge');
  return { value: steady.ratio, node: steady.shelf, time_s: steady.time_s };
}

export function readTransientShare(c: Case): Reading {
  const { transient } = c.result.share;
  if (transient === null) return absent('no edge or event in the window');
  return { value: transient.ratio, node: transient.shelf, time_s: transient.time_s };
}

/** Largest trim over its clamp; its highest value in the window, hence never kinder than the steady one. */
export function readTrim(c: Case): Reading {
  const clamp_V = c.scenario.firmware.share.trim_limit_V;
  const trims = channelsOf(c.result, 'shelf-trim').flatMap(({ id, owner }) => {
    const extreme = extremeOf(c.result, id);
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

/** Mean shelf current of the sections: highest minus lowest, over their mean. */
export function readSectionBalance(c: Case): Reading {
  const out = trippedShelves(c.scenario);
  if (out.length > 0) return absent(`${out.map((s) => s.id).join(', ')} out: the sections are not equal`);
  const sums = c.scenario.sections.flatMap((section) => {
    const shelves = c.scenario.shelves.filter((shelf) => section.order.includes(shelf.id));
    if (shelves.length === 0) return [];
    let current = 0;
    for (const shelf of shelves)
      current += meanSquareOf(c.result, `${shelf.id}.current_A`)?.mean ?? Number.NaN;
    return [{ id: section.id, current }];
  });
  let total = 0;
  for (const { current } of sums) total += current;
  if (sums.length < 2 || !(total > 0)) return absent('fewer than two sections carry current');
  const most = worst(sums, (s) => s.current)!;
  const least = worst(sums, (s) => -s.current)!;
  return { value: (most.current - least.current) / (total / sums.length), node: most.id };
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
