import { remembered } from '../search/remembered-run.ts';
import { inRounds } from '../search/rounds.ts';
import type { Study } from '../study.ts';
import { ratingEnd } from './judge.ts';
import { largestOf } from './largest.ts';
import { ratingCsv, ratingMarkdown, ratingSentence } from './paper.ts';
import type { RatingPlan } from './plan.ts';
import { type RatingReport, ratingReport } from './report.ts';

/**
 * The largest load that passes: every power of the load (or the paths that are named) is multiplied by one
 * scale, tried in steps. By situation, and for pulse trains as a curve over duty and period against the steady
 * load that the same cabinet takes.
 */
export const rating: Study<RatingPlan, RatingReport> = {
  name: 'rating',
  carryOut: async (plan, run) => {
    const { run: asked, outcomes } = remembered(run);
    const rows = await inRounds(
      plan.tasks.map((task) => largestOf(task, plan)),
      asked,
    );
    return ratingReport(plan, rows, outcomes());
  },
  // Each search is a part: which scales it runs depends on what it has seen.
  parts: {
    what: 'ratings',
    count: ({ tasks }) => tasks.length,
    carryOut: async (plan, run, isOwn) => {
      const own = plan.tasks.filter((_, k) => isOwn(k));
      const rows = await inRounds(
        own.map((task) => largestOf(task, plan)),
        run,
      );
      return rows.length;
    },
    held: () => null,
  },
  end: ratingEnd,
  sentence: ratingSentence,
  papers: (report) => ({ 'study.md': ratingMarkdown(report), 'table.csv': ratingCsv(report) }),
};
