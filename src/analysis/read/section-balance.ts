/** Shelf current of the sections against each other. */
import type { Span } from '../../events/spans.ts';
import { type Case, meanSquareOf, outSpans, ratedCurrent, worst } from '../record/case.ts';
import { shareOf, touches } from '../record/spans.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';
import { withoutShelves } from './sharing.ts';

/** Shelves that carry less of their rating load neither link bars nor feeders, however they part it. */
const least_ratio = 0.01;

/**
 * Mean shelf current of the sections: highest minus lowest, over their mean, clear of AC loss, walk-in and of shelves
 * that are out: sections whose shelves on line are not rated alike carry unlike currents by design, and are not held
 * against each other.
 */
export function readSectionBalance(c: Case): Reading {
  const sections = c.scenario.sections.flatMap(({ id, order }) => {
    const shelves = c.scenario.shelves.filter((shelf) => order.includes(shelf.id));
    const rated = shelves.reduce((sum, { values }) => sum + ratedCurrent(values), 0);
    return shelves.length === 0 ? [] : [{ id, shelves, rated }];
  });
  if (sections.length < 2) return cannotArise('fewer than two sections have shelves');
  if (sections.some(({ rated }) => Math.abs(rated / sections[0]!.rated - 1) > 1e-6)) {
    const counts = sections.map(({ id, shelves }) => `${shelves.length} in ${id}`).join(', ');
    return cannotArise(`the shelves of the sections are not rated alike: ${counts}`);
  }
  const out = c.scenario.shelves.flatMap(({ id }) => outSpans(c, id));
  const left_out = [...withoutShelves(c), ...out];
  const sums = sections.map(({ id, shelves }) => ({
    id,
    current: shelves.reduce((sum, shelf) => sum + meanClearOf(c, shelf.id, left_out), 0),
  }));
  const total = sums.reduce((sum, { current }) => sum + current, 0);
  if (Number.isNaN(total)) return notShown('at no time in the window are all shelves on line with AC');
  const carried = total / sections.reduce((sum, { rated }) => sum + rated, 0);
  if (!(carried >= least_ratio)) {
    const percent = (ratio: number): string => `${Number((100 * ratio).toPrecision(3))} %`;
    return cannotArise(
      `the shelves carry ${percent(carried)} of their rating, less than ${percent(least_ratio)}`,
    );
  }
  const most = worst(sums, (s) => s.current)!;
  const least = worst(sums, (s) => -s.current)!;
  return {
    value: (most.current - least.current) / (total / sums.length),
    node: most.id,
    share_seen: 1 - shareOf(c.result.window, left_out),
    ...(left_out.length === 0
      ? {}
      : { reason: 'while all shelves are on line, clear of AC loss and walk-in' }),
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
