/** Shelves against their continuous rating and the least voltage of their bulk capacitors. */
import { type Case, channelsOf, extremeOf, ratedCurrent, spansOf, worst } from '../record/case.ts';
import { extremeClearOf } from '../record/clear-extremes.ts';
import { harderSquare } from '../record/going-on.ts';
import { rmsClearOf } from '../record/square-course.ts';
import { standingOf } from '../record/stood-before.ts';
import { notShown, type Reading } from './reading.ts';

/**
 * RMS current over rated current, worst shelf: over the window, over the rounds of it in which the shelf worked, over the cycle that
 * goes on, or what it stood at before the run, whichever is most. Time without AC is no rest that belongs to the load.
 */
export function readShelfContinuous(c: Case): Reading {
  const ratios = c.scenario.shelves.flatMap((shelf) => {
    const channel = `${shelf.id}.current_A`;
    const current = harderSquare(c, channel);
    if (current === null) return [];
    const atWork = rmsClearOf(c, channel, spansOf(c, ['out', 'ac-lost'], shelf.id));
    const most_A = Math.max(current.rms, atWork ?? 0, standingOf(c, channel) ?? 0);
    return [{ id: shelf.id, ratio: most_A / ratedCurrent(shelf.values) }];
  });
  const most = worst(ratios, (r) => r.ratio);
  return most === null
    ? notShown('no shelf current was recorded')
    : {
        value: most.ratio,
        node: most.id,
        time_s: extremeOf(c.result, `${most.id}.current_A`)?.max_s ?? null,
      };
}

/** Highest current of a shelf over its rated current. */
export function readShelfPeak(c: Case): Reading {
  const peaks = c.scenario.shelves.flatMap((shelf) => {
    const extreme = extremeOf(c.result, `${shelf.id}.current_A`);
    if (extreme === null) return [];
    return [{ id: shelf.id, ratio: extreme.max / ratedCurrent(shelf.values), time_s: extreme.max_s }];
  });
  const most = worst(peaks, (p) => p.ratio);
  if (most === null) return notShown('no shelf current was recorded');
  return { value: most.ratio, node: most.id, time_s: most.time_s };
}

/** Lowest bulk voltage above the least at which the DC stage runs, while AC is present and walked in. */
export function readBulkMargin(c: Case): Reading {
  const left_out = [...c.applies.lost, ...c.applies.walkIn];
  const margins = channelsOf(c.result, 'shelf-bulk').flatMap(({ id, owner, index }) => {
    const shelf = c.scenario.shelves.find((s) => s.id === owner);
    const extreme = left_out.length === 0 ? extremeOf(c.result, id) : extremeClearOf(c, index, left_out);
    if (shelf === undefined || extreme === null) return [];
    return [{ id: owner, margin_V: extreme.min - shelf.values.bulk_voltage_min_V, time_s: extreme.min_s }];
  });
  const least = worst(margins, (m) => -m.margin_V);
  return least === null
    ? notShown('AC was never present in the window')
    : { value: least.margin_V, node: least.id, time_s: least.time_s };
}
