/**
 * How much of a step of the load the trays leave to the rectifiers: the largest lasting change of what neither trays
 * nor batteries carry, from the two 10 ms means before an edge to two after it. The two between hold the edge and the
 * milliseconds in which the trays' command is on its way; where one of a pair still holds some of that, the other
 * counts: of the four differences the least. What moves power without the load (AC that sags, batteries that start) is
 * no step of the load: no more counts than the load itself has changed.
 */
import { meansFromBefore } from '../record/before-start.ts';
import { type Case, worst } from '../record/case.ts';
import { shareOf, touches } from '../record/spans.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

/** Means from the first before an edge to the last after it. */
const reach = 5;

export function readTrayFollows(c: Case): Reading {
  if (c.scenario.trays.length === 0) return cannotArise('the cabinet has no trays');
  const before_s = reach * c.result.means.width_s;
  const [load, trays, batteries] = ['load_W', 'trays_W', 'batteries_W'].map((name) =>
    meansFromBefore(c, `total.${name}`, before_s),
  );
  if (!load || !trays || !batteries || load.values.length <= reach) {
    return notShown('the window is shorter than a step and its ends');
  }
  const { values, from_s, width_s } = load;
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  if (!(mean > 0)) return cannotArise('there is no load');
  const source = values.map((power, j) => power - trays.values[j]! - batteries.values[j]!);
  const left_out = [...c.applies.lost, ...c.applies.walkIn];
  const steps = Array.from({ length: values.length - reach }, (_, j) => ({
    from_s: from_s + j * width_s,
    step: Math.min(Math.abs(lastingStep(source, j)), Math.abs(lastingStep(values, j))),
  })).filter((s) => !touches(left_out, s.from_s, s.from_s + (reach + 1) * width_s));
  const most = worst(steps, ({ step }) => step);
  if (most === null) return notShown('no time in the window is clear of AC loss and walk-in');
  return {
    value: most.step / mean,
    time_s: most.from_s + 3 * width_s,
    share_seen: 1 - shareOf(c.result.window, left_out),
    reason: `${(most.step / 1e3).toFixed(1)} kW of change reach the rectifiers within 30 ms`,
  };
}

/** The least of the changes from values j and j + 1 to values j + 4 and j + 5. */
function lastingStep(source: Float64Array, j: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const before of [source[j]!, source[j + 1]!]) {
    for (const after of [source[j + 4]!, source[j + 5]!]) {
      if (Math.abs(after - before) < Math.abs(least)) least = after - before;
    }
  }
  return least;
}
