/**
 * How much of a step of the load the trays leave to the rectifiers: the largest lasting change of what neither trays
 * nor batteries carry, from the two 10 ms means before an edge to two after it. The two between hold the edge and the
 * milliseconds in which the trays' command is on its way; where one of a pair still holds some of that, the other
 * counts: of the four differences the least. What moves power without the load (AC that sags, batteries that start) is
 * no step of the load: no more counts than the load itself has changed.
 */
import { meansFromBefore } from '../record/before-start.ts';
import type { Case } from '../record/case.ts';
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
  const most = largestStep(values.length - reach, (j) => {
    const at_s = from_s + j * width_s;
    if (touches(left_out, at_s, at_s + (reach + 1) * width_s)) return null;
    return Math.min(Math.abs(lastingStep(source, j)), Math.abs(lastingStep(values, j)));
  });
  if (most === null) return notShown('no time in the window is clear of AC loss and walk-in');
  return {
    value: most.step / mean,
    time_s: from_s + most.j * width_s + 3 * width_s,
    share_seen: 1 - shareOf(c.result.window, left_out),
    reason: `${(most.step / 1e3).toFixed(1)} kW of change reach the rectifiers within 30 ms`,
  };
}

/** The largest of so many steps, and the first that is as large; null where none is known. */
function largestStep(
  count: number,
  stepAt: (j: number) => number | null,
): { readonly j: number; readonly step: number } | null {
  let most = -1;
  let largest = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const step = stepAt(j);
    if (step === null || !(step > largest)) continue;
    most = j;
    largest = step;
  }
  return most < 0 ? null : { j: most, step: largest };
}

/** The least of the changes from values j and j + 1 to values j + 4 and j + 5. */
function lastingStep(source: Float64Array, j: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let before = j; before <= j + 1; before++) {
    for (let after = j + 4; after <= j + 5; after++) {
      const change = source[after]! - source[before]!;
      if (Math.abs(change) < Math.abs(least)) least = change;
    }
  }
  return least;
}
