/** Battery shelves against their continuous rating while they carry. */
import type { Limit } from '../../limits/limit.ts';
import { type Case, extremeOf, ratedCurrent, spansOf, worst } from '../record/case.ts';
import { readSustained } from '../record/sustained.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

/** Level over rated current that a battery shelf stays above for the row's stay; without one the highest current. */
export function readBatteryCurrent(c: Case, { stay_s }: Pick<Limit, 'stay_s'>): Reading {
  const { batteries } = c.scenario;
  if (batteries.length === 0) return cannotArise('the cabinet has no battery shelves');
  if (spansOf(c, ['carrying']).length === 0) return cannotArise('no battery carried');
  const rated = batteries.map(({ id, values }) => ({ id, rating: ratedCurrent(values) }));
  const channelOf = (battery: string): string => `${battery}.current_A`;
  if (stay_s !== null && stay_s > 0) return readSustained(c, rated, channelOf, stay_s, 'held');
  const peaks = rated.flatMap(({ id, rating }) => {
    const extreme = extremeOf(c.result, channelOf(id));
    return extreme === null ? [] : [{ id, ratio: extreme.max / rating, time_s: extreme.max_s }];
  });
  const most = worst(peaks, ({ ratio }) => ratio);
  return most === null
    ? notShown('no current of a battery shelf was recorded')
    : { value: most.ratio, node: most.id, time_s: most.time_s };
}
