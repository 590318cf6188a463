import { endOf } from '../end.ts';
import { partsOfList, type Study } from '../study.ts';
import { isEnough, isUndecided } from './judge.ts';
import { spreadCsv, spreadMarkdown, spreadSentence } from './paper.ts';
import type { SpreadPlan } from './plan.ts';
import { rareOf } from './rare/search.ts';
import { type SpreadReport, spreadReport } from './report.ts';

/**
 * Tolerances sampled: how many of such cabinets pass, what the answer depends on, and the worst of them. Ends
 * early once the yield is known well enough, which is asked of unbroken beginnings only.
 */
export const spread: Study<SpreadPlan, SpreadReport> = {
  name: 'spread',
  carryOut: async (plan, run) => {
    const found = await run(plan.trials, isEnough(plan));
    const report = spreadReport(plan, found);
    return plan.rare === null ? report : { ...report, rare: await rareOf(plan, plan.points, found, run) };
  },
  parts: {
    ...partsOfList('samples', ({ trials }) => trials, 'ends there'),
    // A search for what fails goes on from the plain samples, and each step depends on the last.
    held: ({ rare, trials }) => (rare === null ? null : trials),
  },
  // A yield is an answer, whatever it is, where any sample came to a verdict.
  end: (report) => endOf(report.states, !isUndecided(report)),
  sentence: spreadSentence,
  papers: (report) => ({ 'study.md': spreadMarkdown(report), 'samples.csv': spreadCsv(report) }),
};
