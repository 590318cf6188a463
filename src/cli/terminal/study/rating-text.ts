/** A rating on a terminal. */
import { counted } from '../../../base/counted.ts';
import {
  curveHead,
  curveRows,
  ratingHead,
  ratingRows,
  ratingSentence,
  steadyWords,
} from '../../../studies/rating/paper.ts';
import type { RatingReport } from '../../../studies/rating/report.ts';
import { statesNotes, statesWords } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

export function ratingText(report: RatingReport, next: string, paint: Paint): string {
  const { steady, table, runs } = report;
  const lowest = table.find(({ scale_ratio }) => scale_ratio === report.scale_ratio);
  return [
    ...wrap(ratingSentence(report), 120, '  '),
    paint('faint', `${counted(runs, 'simulation')}: ${statesWords(report.states)}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    ...(table.length > 1 ? ['', ...tableText(ratingHead, ratingRows(report), paint)] : []),
    ...(steady === null
      ? []
      : ['', ...wrap(steadyWords(report), 120, '  '), '', ...tableText(curveHead, curveRows(report), paint)]),
    '',
    paint('faint', `to repeat it: ${lowest?.replay ?? ''}`),
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
