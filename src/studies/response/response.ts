import type { Study } from '../study.ts';
import { responseEnd } from './judge.ts';
import { findOver } from './over/over.ts';
import { overMarkdown, worstSentence } from './over/over-paper.ts';
import { settledWords, stateWords } from './paper.ts';
import type { ResponsePlan } from './plan.ts';
import { layPoints } from './points.ts';
import { type ResponseReport, responseReport } from './report.ts';

/** Frequency responses, bus impedance, loop gains, modes and their owners; measured points laid over them. */
export const response: Study<ResponsePlan, ResponseReport> = {
  name: 'response',
  carryOut: async ({ scenario, trial, over, measured: { file, points, curve } }, run) => {
    const [found] = await run([trial]);
    const laid = layPoints(file, points, found!.curves, curve);
    const worst = over === null ? null : await findOver(over, { trial, response: found! }, run);
    return responseReport(scenario, found!, laid, worst);
  },
  parts: null,
  end: responseEnd,
  sentence: (report, { scenario }) =>
    [
      `${settledWords(scenario.title, report)}: ${stateWords(report)}`,
      ...(report.over === null ? [] : [worstSentence(report.over)]),
    ].join('; '),
  papers: (report): Readonly<Record<string, string>> =>
    report.over === null ? {} : { 'study.md': overMarkdown(report.title, report.over) },
};
