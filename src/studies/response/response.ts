import type { Study } from '../study.ts';
import { responseEnd } from './judge.ts';
import { settledWords, stateWords } from './paper.ts';
import type { ResponsePlan } from './plan.ts';
import { layPoints } from './points.ts';
import { type ResponseReport, responseReport } from './report.ts';

/** Frequency responses, bus impedance, loop gains, modes and their owners; measured points laid over them. */
export const response: Study<ResponsePlan, ResponseReport> = {
  name: 'response',
  carryOut: async ({ scenario, trial, measured: { file, points, curve } }, run) => {
    const [found] = await run([trial]);
    return responseReport(scenario, found!, layPoints(file, points, found!.curves, curve));
  },
  parts: null,
  end: responseEnd,
  sentence: (report, { scenario }) => `${settledWords(scenario.title, report)}: ${stateWords(report)}`,
  papers: () => ({}),
};
