/**
 * Means with what came before the judged window, where that is known: a run that begins settled had its first value for
 * ever, a load that repeats had its last period. A change close to the beginning is then seen as what it is; without
 * it, half of it would lie in a time that was not looked at.
 */
import { type Case, repeated } from './case.ts';

export interface Means {
  readonly values: Float64Array;
  readonly from_s: number;
  readonly width_s: number;
}

/** The 10 ms means of a column, `before_s` longer where what came before is known; null where there are none. */
export function meansFromBefore(c: Case, column: string, before_s: number): Means | null {
  const { columns, at_start, from_s, width_s } = c.result.means;
  const values = columns.get(column);
  if (values === undefined) return null;
  const count = Math.round(before_s / width_s);
  const before = beforeOf(c, values, at_start[column], count);
  if (before === null) return { values, from_s, width_s };
  const longer = new Float64Array(count + values.length);
  longer.set(before);
  longer.set(values, count);
  return { values: longer, from_s: from_s - count * width_s, width_s };
}

function beforeOf(
  c: Case,
  values: Float64Array,
  first: number | undefined,
  count: number,
): Float64Array | null {
  const cycle = repeated(c);
  const { from_s, to_s } = c.result.window;
  if (cycle !== null && c.period_s !== null && !cycle.disturbed) {
    // Whole periods: the end of the last one comes before the first.
    const whole = Math.round((to_s - from_s) / c.result.means.width_s);
    return whole < count ? null : values.slice(whole - count, whole);
  }
  const settled = from_s === 0 && c.scenario.start === 'settled' && first !== undefined;
  return settled ? new Float64Array(count).fill(first) : null;
}
