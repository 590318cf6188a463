import type { Study } from '../study.ts';
import { marchWarm } from './drives.ts';
import { dutyEnd } from './judge.ts';
import { dutyCourseCsv, dutyCsv, dutyMarkdown, dutySentence } from './paper.ts';
import type { DutyPlan } from './plan.ts';
import { type DutyReport, dutyReport } from './report.ts';

/**
 * Heat, charge and life of a cabinet through a calendar: one fast run for each stretch, the slow pass (`slow/`) between them. Not split
 * into parts: a stretch begins as the one before has left the cabinet.
 */
export const duty: Study<DutyPlan, DutyReport> = {
  name: 'duty',
  carryOut: async (plan, run) => dutyReport(plan, await marchWarm(plan, run)),
  parts: null,
  end: dutyEnd,
  sentence: dutySentence,
  papers: (report) => ({
    'study.md': dutyMarkdown(report),
    'table.csv': dutyCsv(report),
    'course.csv': dutyCourseCsv(report),
  }),
};
