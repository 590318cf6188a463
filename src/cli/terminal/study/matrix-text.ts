/** A matrix on a terminal: the grid, and the commands that repeat what does not pass. */
import {
  cornerWords,
  gridHead,
  gridRows,
  legendOf,
  matrixSentence,
  rippleNote,
  shortHead,
  shortRows,
} from '../../../studies/matrix/paper.ts';
import type { MatrixReport } from '../../../studies/matrix/report.ts';
import { isPass, statesNotes } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

/** Every cell with its limit where that fits; otherwise the letters, and of each row the tightest. */
function gridText(report: MatrixReport, paint: Paint): string[] {
  const whole = tableText(gridHead(report), gridRows(report), paint);
  if (Math.max(...whole.map((line) => line.length)) <= 120) return whole;
  return [
    ...tableText(shortHead(report), shortRows(report), paint),
    ...wrap(
      paint('faint', `  ${cornerWords(report)}; the limit of every cell: report, page, --json`),
      120,
      '  ',
    ),
  ];
}

export function matrixText(report: MatrixReport, next: string, paint: Paint): string {
  const broken = report.cells.filter(({ letter }) => !isPass(letter));
  return [
    ...wrap(matrixSentence(report), 120, '  '),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    paint('faint', legendOf(report)),
    ...(rippleNote(report) === '' ? [] : wrap(paint('faint', rippleNote(report)), 120)),
    '',
    ...gridText(report, paint),
    ...(broken.length === 0
      ? []
      : [
          '',
          paint('strong', 'to repeat what does not pass'),
          ...broken.slice(0, 12).map(({ replay }) => `  ${replay}`),
        ]),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
