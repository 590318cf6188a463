import { inRounds } from '../search/rounds.ts';
import { partsOfList, type Study } from '../study.ts';
import type { RunOutcome } from '../trials/run-outcome.ts';
import type { RunTrials } from '../trials/trial.ts';
import { matrixEnd } from './judge.ts';
import { matrixCsv, matrixMarkdown, matrixSentence } from './paper.ts';
import type { MatrixPlan } from './plan.ts';
import { type MatrixReport, matrixReport, type Tried, triedOf } from './report.ts';
import { searchWorstMoment } from './worst-moment.ts';

/** Faults × corners × redundancy: one verdict each, with the limit that binds and the command that repeats it. */
export const matrix: Study<MatrixPlan, MatrixReport> = {
  name: 'matrix',
  carryOut: async (plan, run) => {
    const outcomes = await run(plan.trials);
    return matrixReport(plan, outcomes, await searched(plan, outcomes, run));
  },
  parts: {
    ...partsOfList('cells', ({ trials }: MatrixPlan) => trials, 'ends there'),
    // Where moments are searched the search goes on from the grid that parts hold.
    held: ({ search, trials }) => (search === null ? null : trials),
  },
  end: matrixEnd,
  sentence: matrixSentence,
  papers: (report) => ({ 'study.md': matrixMarkdown(report), 'cells.csv': matrixCsv(report) }),
};

/** Moments beyond the grid, of every cell that was tried at several. */
async function searched(
  plan: MatrixPlan,
  outcomes: readonly RunOutcome[],
  run: RunTrials,
): Promise<readonly Tried[]> {
  const { search, places } = plan;
  if (search === null) return [];
  const tried = triedOf(plan, outcomes);
  const grids = places
    .map((_, place) => tried.filter((one) => one.place === place))
    .filter((grid) => grid.length > 1);
  const found = await inRounds(
    grids.map((grid) => searchWorstMoment(plan, search, grid)),
    run,
  );
  return found.flat();
}
