/** A duty on a terminal: the answer first, the rest in a screen. */
import {
  dutySentence,
  findingHead,
  findingRows,
  momentHead,
  momentRows,
  passWords,
  stretchHead,
  stretchRows,
} from '../../../studies/duty/paper.ts';
import type { DutyReport } from '../../../studies/duty/report.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { shortTable } from './table-text.ts';

/** Rows of each table; all of them stand in the report. */
const most = { findings: 5, stretches: 3, moments: 2, conditions: 1 } as const;

/** Columns of the findings that a line holds: without why, which the report says. */
const shownColumns = findingHead.length - 1;

export function dutyText(report: DutyReport, next: string, paint: Paint): string {
  return [
    ...wrap(dutySentence(report), 120, '  '),
    ...wrap(passWords(report), 120, '  ').map((line) => paint('faint', line)),
    ...shortTable(
      'limits judged by the course',
      {
        head: findingHead.slice(0, shownColumns),
        rows: findingRows(report).map((row) => row.slice(0, shownColumns)),
      },
      most.findings,
      paint,
    ),
    ...shortTable(
      'stretches',
      { head: stretchHead, rows: stretchRows(report, most.conditions) },
      most.stretches,
      paint,
    ),
    ...shortTable('moments', { head: momentHead, rows: momentRows(report) }, most.moments, paint),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
