/** A rating on a terminal: the answer first, the rest in a screen. */
import { counted } from '../../../base/counted.ts';
import {
  curveHead,
  curveRows,
  ratingHead,
  ratingNotes,
  ratingSentence,
  ratingShortRows,
  steadyWords,
} from '../../../studies/rating/paper.ts';
import type { RatingReport } from '../../../studies/rating/report.ts';
import { statesWords } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { shortTable } from './table-text.ts';

/** Rows of each table; all of them stand in the report. */
const most = { situations: 3, curve: 4 } as const;

export function ratingText(report: RatingReport, next: string, paint: Paint): string {
  const { steady, table, runs } = report;
  const lowest = table.find(({ scale_ratio }) => scale_ratio === report.scale_ratio);
  return [
    ...wrap(ratingSentence(report), 120, '  '),
    paint('faint', `${counted(runs, 'simulation')}: ${statesWords(report.states)}`),
    ...ratingNotes(report).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    ...(table.length > 1
      ? shortTable(
          'by situation',
          { head: ratingHead, rows: ratingShortRows(report) },
          most.situations,
          paint,
        )
      : []),
    ...(steady === null
      ? []
      : [
          '',
          ...wrap(steadyWords(report), 120, '  '),
          ...shortTable('pulse trains', { head: curveHead, rows: curveRows(report) }, most.curve, paint),
        ]),
    '',
    paint('faint', `to repeat it: ${lowest?.replay ?? ''}`),
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
