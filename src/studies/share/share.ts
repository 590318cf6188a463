import { partsOfList, type Study } from '../study.ts';
import { shareCsv, shareMarkdown } from './paper.ts';
import type { SharePlan } from './plan.ts';
import { type ShareReport, shareReport } from './report.ts';

/** The share loop put to cases in time; what is found is reported, not judged. */
export const share: Study<SharePlan, ShareReport> = {
  name: 'share',
  carryOut: async (plan, run) => shareReport(plan, await run(plan.trials)),
  parts: partsOfList('cases', ({ trials }) => trials, 'ends there'),
  end: () => 'passed',
  sentence: () => null,
  papers: (report) => ({ 'study.md': shareMarkdown(report), 'cases.csv': shareCsv(report) }),
};
