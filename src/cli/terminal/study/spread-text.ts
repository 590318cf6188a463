/** A spread on a terminal. */
import {
  metricHead,
  metricRows,
  sensitivityHead,
  sensitivityRows,
  spreadSentence,
  worstHead,
  worstRows,
} from '../../../studies/spread/paper.ts';
import type { SpreadReport } from '../../../studies/spread/report.ts';
import { statesNotes } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

export function spreadText(report: SpreadReport, again: string, next: string, paint: Paint): string {
  const { sampling, seed, of, noise, worst } = report;
  return [
    ...wrap(spreadSentence(report), 120, '  '),
    paint('faint', `${sampling}, seed ${seed}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    '',
    paint('strong', `what ${of} depends on`) + paint('faint', `  (chance gives up to ${noise.toFixed(2)})`),
    ...tableText(sensitivityHead, sensitivityRows(report).slice(0, 8), paint, new Set([1])),
    '',
    paint('strong', 'metrics'),
    ...tableText(metricHead, metricRows(report), paint, new Set([1, 2, 3, 4, 5])),
    '',
    paint('strong', 'the worst'),
    ...tableText(worstHead, worstRows(report), paint, new Set([0])),
    paint('faint', `  the command that repeats the worst: ${again} --sample ${worst[0]?.sample ?? 1}`),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
