import { remembered } from '../search/remembered-run.ts';
import { inRounds } from '../search/rounds.ts';
import { partsOfList, type Study } from '../study.ts';
import { answerAmong } from './choose.ts';
import { leversAt } from './fitting-levers.ts';
import { sizeEnd } from './judge.ts';
import { pullLevers } from './levers.ts';
import { sizeCsv, sizeMarkdown, sizeSentence } from './paper.ts';
import { type SizePlan, sizeGrid } from './plan.ts';
import { type SizeReport, sizeReport } from './report.ts';
import { searchRow } from './search-row.ts';

/**
 * The smallest design that passes: every candidate is run through every situation (cases × corners ×
 * redundancy), the least that passes them all is found, and what binds and what would help is told.
 */
export const size: Study<SizePlan, SizeReport> = {
  name: 'size',
  carryOut: async (plan, run) => {
    const { run: asked, outcomes } = remembered(run);
    const searched = await inRounds(
      plan.rows.map((row) => searchRow(plan, row)),
      asked,
    );
    const answer = answerAmong(
      plan,
      searched.map(({ found }) => found),
    );
    const own = leversAt(plan.levers, answer.pulledAt);
    const levers = await pullLevers({ ...plan, levers: own }, answer.pulledAt, asked);
    return sizeReport(plan, searched, { answer, levers, runs: outcomes().length });
  },
  // The next step of the search depends on the last, and what would help next on the whole of it.
  parts: partsOfList('simulations', sizeGrid, 'goes on'),
  end: sizeEnd,
  sentence: sizeSentence,
  papers: (report) => ({ 'study.md': sizeMarkdown(report), 'table.csv': sizeCsv(report) }),
};
