import { partsOfList, type Study } from '../study.ts';
import { matrixEnd } from './judge.ts';
import { matrixCsv, matrixMarkdown, matrixSentence } from './paper.ts';
import type { MatrixPlan } from './plan.ts';
import { type MatrixReport, matrixReport } from './report.ts';

/** Faults × corners × redundancy: one verdict each, with the limit that binds and the command that repeats it. */
export const matrix: Study<MatrixPlan, MatrixReport> = {
  name: 'matrix',
  carryOut: async (plan, run) => matrixReport(plan, await run(plan.trials)),
  parts: partsOfList('cells', ({ trials }) => trials, 'ends there'),
  end: matrixEnd,
  sentence: matrixSentence,
  papers: (report) => ({ 'study.md': matrixMarkdown(report), 'cells.csv': matrixCsv(report) }),
};
