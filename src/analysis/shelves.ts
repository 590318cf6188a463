/** Shelves against their continuous rating and the least voltage of their bulk capacitors. */
import { type Case, channelsOf, extremeOf, meanSquareOf, ratedCurrent, worst } from './case.ts';
import { absent, type Reading } from './reading.ts';
import { touches } from './spans.ts';

/** RMS current over rated current, worst shelf. */
export function readShelfContinuous(c: Case): Reading {
  const ratios = c.scenario.shelves.flatMap((shelf) => {
    const current = meanSquareOf(c.result, `${shelf.id}.current_A`);
    return current === null ? [] : [{ id: shelf.id, ratio: current.rms / ratedCurrent(shelf.values) }];
  });
  const most = worst(ratios, (r) => r.ratio);
  return most === null
    ? absent('no shelf current was recorded')
    : {
        value: most.ratio,
        node: most.id,
        time_s: extremeOf(c.result, `${most.id}.current_A`)?.max_s ?? null,
      };
}

interface Margin {
  readonly id: string;
  readonly margin_V: number;
  readonly time_s: number;
}

/** Lowest bulk voltage above the least at which the DC stage runs, while AC is present and walked in. */
export function readBulkMargin(c: Case): Reading {
  const { lost, walkIn } = c.applies;
  const without = [...lost, ...walkIn];
  const margins = channelsOf(c.result, 'shelf-bulk').flatMap(({ id, owner, index }) => {
    const shelf = c.scenario.shelves.find((s) => s.id === owner);
    if (shelf === undefined) return [];
    const floor = shelf.values.bulk_voltage_min_V;
    if (without.length === 0) {
      const extreme = extremeOf(c.result, id);
      return extreme === null ? [] : [{ id: owner, margin_V: extreme.min - floor, time_s: extreme.min_s }];
    }
    return lowestBucket(c, owner, index, floor, without);
  });
  const least = worst(margins, (m) => -m.margin_V);
  return least === null
    ? absent('AC was never present in the window')
    : { value: least.margin_V, node: least.id, time_s: least.time_s };
}

/** Of the recorded buckets that lie inside the window and clear of `without`. */
function lowestBucket(
  c: Case,
  id: string,
  index: number,
  floor: number,
  without: readonly { from_s: number; to_s: number }[],
): Margin[] {
  const { edges_s, min, bucketCount } = c.result.recording;
  const { from_s, to_s } = c.result.window;
  let least: Margin | null = null;
  for (let b = 0; b < bucketCount; b++) {
    const from = edges_s[b]!;
    const to = edges_s[b + 1]!;
    if (from < from_s || to > to_s * (1 + 1e-12) || touches(without, from, to)) continue;
    const margin_V = min[index]![b]! - floor;
    if (least === null || margin_V < least.margin_V) least = { id, margin_V, time_s: from };
  }
  return least === null ? [] : [least];
}
