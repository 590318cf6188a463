import type { Study } from '../study.ts';
import { injectedCsv, injectedPoints } from './inject/points.ts';
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
  carryOut: async ({ scenario, trial, over, swings, measured: { file, points, curve } }, run) => {
    const [found] = await run([trial]);
    const injected = await run(swings);
    const laid = [
      ...layPoints(file, points, found!.curves, curve),
      ...layPoints('--inject', injectedPoints(injected), found!.curves, null),
    ];
    const worst = over === null ? null : await findOver(over, { trial, response: found! }, run);
    return responseReport(scenario, found!, { measured: laid, over: worst, injected });
  },
  parts: null,
  end: responseEnd,
  sentence: (report, { scenario }) =>
    [
      `${settledWords(scenario.title, report)}: ${stateWords(report)}`,
      ...(report.over === null ? [] : [worstSentence(report.over)]),
    ].join('; '),
  papers: (report): Readonly<Record<string, string>> => ({
    ...(report.over === null ? {} : { 'study.md': overMarkdown(report.title, report.over) }),
    ...(report.injected.length === 0 ? {} : { 'injected.csv': injectedCsv(report.injected) }),
  }),
};
