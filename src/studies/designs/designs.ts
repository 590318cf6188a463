import { remembered } from '../search/remembered-run.ts';
import { partsOfList, type Study } from '../study.ts';
import { designsEnd } from './judge.ts';
import { designsCsv, designsMarkdown, designsSentence } from './paper.ts';
import { type DesignsPlan, designGrid } from './plan.ts';
import { type DesignsReport, designsReport } from './report.ts';
import { searchFront } from './search.ts';

/**
 * Designs worth building: of every combination of what is varied, those that pass every situation and that no other one
 * beats in one or two objectives, each with its bill of parts.
 */
export const designs: Study<DesignsPlan, DesignsReport> = {
  name: 'designs',
  carryOut: async (plan, run) => {
    const { run: asked, outcomes } = remembered(run);
    const courses = await searchFront(plan, asked);
    return designsReport(plan, courses, outcomes().length);
  },
  // Which design comes next depends on those before; the parts run the whole grid, and the merge what samples it needs.
  parts: partsOfList('simulations', designGrid, 'goes on'),
  end: designsEnd,
  sentence: designsSentence,
  papers: (report) => ({ 'study.md': designsMarkdown(report), 'designs.csv': designsCsv(report) }),
};
