/** A study of designs on a terminal: the answer first, the front, and the bill of parts of the first of it. */
import { designsWord, isCleanFront } from '../../../studies/designs/judge.ts';
import { blindWords, designsNotes, designsSentence, searchWords } from '../../../studies/designs/paper.ts';
import type { DesignsReport } from '../../../studies/designs/report.ts';
import {
  billHead,
  billRows,
  designWordsHead,
  designWordsRow,
  frontHead,
  frontRows,
} from '../../../studies/designs/tables.ts';
import { wordsOf } from '../../../studies/search/axes.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { shortTable } from './table-text.ts';

const width = 120;

/** Rows of each table; all of them stand in the report. */
const most = { front: 6, bill: 6 } as const;

export function designsText(report: DesignsReport, next: string, paint: Paint): string {
  const { front } = report;
  const [first] = front;
  const word = paint(
    isCleanFront(report) ? 'good' : first === undefined ? 'bad' : 'strong',
    designsWord(report),
  );
  const faint = (line: string): string => paint('faint', line);
  return [
    ...wrap(`${word}  ${designsSentence(report)}`, width, '       '),
    ...wrap(searchWords(report), width, '  ').map(faint),
    ...designsNotes(report).flatMap((note) => wrap(`  ${note}`, width, '  ')),
    ...blindWords(report).flatMap((note) => wrap(`  ${note}`, width, '  ')),
    ...(first === undefined
      ? shortTable(
          'designs',
          { head: designWordsHead(report), rows: report.designs.map(designWordsRow(report)) },
          most.front,
          paint,
        )
      : shortTable('the front', { head: frontHead(report), rows: frontRows(report) }, most.front, paint)),
    ...(first === undefined
      ? []
      : shortTable(
          `bill of parts: ${wordsOf(first.values)}`,
          { head: billHead, rows: billRows(first.bill), right: new Set([2, 3, 4, 5]) },
          most.bill,
          paint,
        )),
    '',
    faint(
      'every design, the bill of each of the front and the commands that repeat them: the report, --json',
    ),
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
