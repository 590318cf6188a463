/**
 * The worst moment of a cell, searched about the worst of the grid: half the grid's spacing to either side, and from the worst of
 * the three half as far again. A direct search by values (Hooke and Jeeves 1961, from memory) takes no slope, which
 * limiters and the choice of the limit that decides would break; the worst that was run counts, so that it never
 * does worse than the grid. A peak between two other moments of the grid it does not see.
 */
import type { Search } from '../search/rounds.ts';
import { worstOf } from './cell.ts';
import { halvings, type MomentSearch, momentsBeside } from './moments.ts';
import { type MatrixPlan, trialOf } from './plan.ts';
import { cellOf, type Tried } from './report.ts';

/** `grid`: the moments of one cell, as they came out. Gives those that were tried beyond them. */
export function searchWorstMoment(
  plan: MatrixPlan,
  search: MomentSearch,
  grid: readonly Tried[],
): Search<readonly Tried[]> {
  return async (run) => {
    const tried = [...grid];
    const { place } = grid[0]!;
    for (let k = 1; k <= halvings; k++) {
      const worst = worstOf(tried.map((one) => cellOf(plan, one)));
      const moments_s = momentsBeside(
        worst.later_s,
        search.spacing_s / 2 ** k,
        { ...search, room_s: search.room_s[place]! },
        tried.map(({ later_s }) => later_s),
      );
      if (moments_s.length === 0) break;
      const trials = moments_s.map((later_s) => trialOf(plan.study, search.made_of[place]!, later_s));
      const outcomes = await run(trials);
      for (const [m, outcome] of outcomes.entries())
        tried.push({ place, later_s: moments_s[m]!, trial: trials[m]!, outcome });
    }
    return tried.slice(grid.length);
  };
}
