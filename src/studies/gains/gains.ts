import { partsOfList, type Study } from '../study.ts';
import { confirm } from './confirm.ts';
import { gainsEnd } from './judge.ts';
import { mapOf } from './map.ts';
import { gainsCsv, gainsMarkdown, gainsSentence } from './paper.ts';
import type { GainsPlan } from './plan.ts';
import { type GainsReport, gainsReport } from './report.ts';

/** A map over two parameters with its acceptable region, the point deepest inside it, and that point run in time. */
export const gains: Study<GainsPlan, GainsReport> = {
  name: 'gains',
  carryOut: async (plan, run) => {
    const map = mapOf(plan, await run(plan.cells));
    return gainsReport(plan, map, await confirm(plan, map, run));
  },
  // Which point is run in time is known only once the map is whole.
  parts: partsOfList('cells', ({ cells }) => cells, 'goes on'),
  end: gainsEnd,
  sentence: gainsSentence,
  papers: (report) => ({ 'study.md': gainsMarkdown(report), 'cells.csv': gainsCsv(report) }),
};
