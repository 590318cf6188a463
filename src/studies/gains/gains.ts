import { partsOfList, type Study } from '../study.ts';
import { AskedPoints } from './asked-points.ts';
import { confirm } from './confirm.ts';
import { withFinerBox } from './finer-box.ts';
import { inCircumstances, worstOf } from './in-circumstances.ts';
import { gainsEnd } from './judge.ts';
import { chosenCell, mapOf } from './map.ts';
import { gainsCsv, gainsMarkdown, gainsSentence } from './paper.ts';
import type { GainsPlan } from './plan.ts';
import { type GainsReport, gainsReport } from './report.ts';

/** A map over two parameters with its acceptable region, the point deepest inside it, and that point run in time. */
export const gains: Study<GainsPlan, GainsReport> = {
  name: 'gains',
  carryOut: async (plan, run) => {
    const points = new AskedPoints(plan, run);
    const coarse = await inCircumstances(plan, mapOf(plan, await run(plan.cells)), points);
    const map = plan.asked.confirm ? await withFinerBox(coarse, points) : coarse;
    const worst = await worstOf(plan, chosenCell(map), map.recommended?.changes ?? [], points);
    return gainsReport(plan, map, worst, await confirm(plan, map, run));
  },
  // Where the box ends and which point is run in time is known only once the map is whole.
  parts: partsOfList('cells', ({ cells }) => cells, 'goes on'),
  end: gainsEnd,
  sentence: gainsSentence,
  papers: (report) => ({ 'study.md': gainsMarkdown(report), 'cells.csv': gainsCsv(report) }),
};
