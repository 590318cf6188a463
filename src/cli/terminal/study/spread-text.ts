/** A spread on a terminal: the answer first, the rest in a screen. */
import {
  askSentence,
  metricHead,
  metricRows,
  sensitivityHead,
  sensitivityRows,
  spreadSentence,
  worstHead,
  worstRows,
} from '../../../studies/spread/paper.ts';
import { rareSentence } from '../../../studies/spread/rare/words.ts';
import type { SpreadReport } from '../../../studies/spread/report.ts';
import { statesNotes } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { shortTable } from './table-text.ts';

/** Rows of each table; all of them stand in the report. */
const most = { depends: 4, metrics: 4, worst: 2 } as const;

export function spreadText(report: SpreadReport, again: string, next: string, paint: Paint): string {
  const { sampling, seed, of, noise, worst, rare } = report;
  const ask = askSentence(report);
  return [
    ...wrap([spreadSentence(report), ...(ask === null ? [] : [ask])].join(' '), 120, '  '),
    ...(rare === undefined ? [] : wrap(rareSentence(rare), 120, '  ')),
    paint('faint', `${sampling}, seed ${seed}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    ...shortTable(
      `what ${of} depends on`,
      { head: sensitivityHead, rows: sensitivityRows(report), right: new Set([1]) },
      most.depends,
      paint,
    ),
    paint('faint', `  chance gives up to ${noise.toFixed(2)}`),
    ...shortTable(
      'metrics, what moves most first',
      { head: metricHead, rows: metricRows(report), right: new Set([1, 2, 3, 4, 5]) },
      most.metrics,
      paint,
    ),
    ...shortTable(
      'the worst',
      { head: worstHead, rows: worstRows(report), right: new Set([0]) },
      most.worst,
      paint,
    ),
    paint('faint', `  the command that repeats the worst: ${again} --sample ${worst[0]?.sample ?? 1}`),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
