/** Stamps that jump where a clock was set while readings went on: a gap between them that is none, or one that is too short. */
import { medianOf } from '../../../samples/quantile.ts';
import type { Beside, Hypothesis } from './fault.ts';

/** A step between stamps this much longer than the usual one is a gap; so many of the longest are looked at. */
const leastGap = 1.5;
const mostGaps = 5;

export function stampsJump(beside: Beside): Hypothesis[] {
  return gapsIn(beside).map(({ after_s, by_s }) => ({
    fault: { kind: 'stamps', at_s: after_s, by_s },
    without: {
      ...beside,
      columns: beside.columns.map((column) => ({
        ...column,
        time_s: column.time_s.map((t) => (t < after_s ? t : t - by_s)),
      })),
    },
    moved_s: null,
  }));
}

interface Gap {
  /** The first stamp behind it, by the time of the file, and by how much it is longer than the usual step [s]. */
  readonly after_s: number;
  readonly by_s: number;
}

/** Gaps that all columns have: one clock stamps them all. */
function gapsIn({ columns }: Beside): Gap[] {
  const all = Float64Array.from(
    [...new Set(columns.flatMap(({ time_s }) => [...time_s]))].sort((a, b) => a - b),
  );
  if (all.length < 3) return [];
  const step = (i: number): number => all[i + 1]! - all[i]!;
  const usual_s = medianOf(all.length - 1, step);
  return [...all.keys()]
    .slice(0, -1)
    .filter((i) => step(i) > leastGap * usual_s)
    .map((i): Gap => ({ after_s: all[i + 1]!, by_s: step(i) - usual_s }))
    .sort((a, b) => b.by_s - a.by_s)
    .slice(0, mostGaps);
}
