/** How long the shelves' currents take to come together again after an edge or event. */
import { type Case, repeated } from '../record/case.ts';
import { disturbances } from '../record/disturbances.ts';
import { holds, shareOf } from '../record/spans.ts';
import { OnLine, type ShelfMeans, shelfMeans } from './on-line.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';
import { withoutShelves } from './sharing.ts';

/** Together: each over its rating within 5 % of the mean of all. */
const together_ratio = 0.05;

/**
 * Longest time from an edge or event to the last 10 ms mean in which a shelf lies more than 5 % of rated off
 * the mean of the shelves, before the next one. To within 10 ms. Clear of AC loss and walk-in.
 */
export function readSettling(c: Case): Reading {
  const { from_s, width_s } = c.result.means;
  const { window } = c.result;
  const shelves = shelfMeans(c);
  const left_out = withoutShelves(c);
  const times = disturbances(c).filter((t) => !holds(left_out, t));
  if (shelves.length < 2) return cannotArise('a single shelf shares with no other');
  if (times.length === 0) {
    const nothing = 'no edge or event in the window';
    return repeated(c) === null ? notShown(nothing) : cannotArise(nothing);
  }
  const line = new OnLine(c, shelves, left_out);
  const worst = { settle_s: 0, time_s: times[0]!, shelf: '' };
  let isCut = false;
  for (const [k, time_s] of times.entries()) {
    const next_s = times[k + 1] ?? window.to_s;
    const first = Math.ceil((time_s - from_s) / width_s - 1e-9);
    const end = Math.min(shelves[0]!.means.length, Math.floor((next_s - from_s) / width_s + 1e-9));
    for (let j = end - 1; j >= first; j--) {
      const on = line.at(j);
      const off = on === null ? null : firstApart(on, j);
      if (off === null) continue;
      const settle_s = from_s + (j + 1) * width_s - time_s;
      isCut ||= j === end - 1;
      if (settle_s > worst.settle_s) Object.assign(worst, { settle_s, time_s, shelf: off.id });
      break;
    }
  }
  const reading = {
    value: worst.settle_s,
    node: worst.shelf === '' ? null : worst.shelf,
    time_s: worst.time_s,
    share_seen: 1 - shareOf(window, left_out),
  };
  return isCut ? unsettled(reading, 'still apart when the next edge or the end came', 'worse') : reading;
}

/** The first of the shelves on line whose mean j lies off the mean of all; null: they are together. */
function firstApart(on: readonly ShelfMeans[], j: number): ShelfMeans | null {
  let mean = 0;
  for (const { means, rated } of on) mean += means[j]! / rated / on.length;
  for (const shelf of on) if (Math.abs(shelf.means[j]! / shelf.rated - mean) > together_ratio) return shelf;
  return null;
}
