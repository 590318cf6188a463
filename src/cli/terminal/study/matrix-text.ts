/** A matrix on a terminal: the grid, and the commands that repeat what does not pass. */
import { coverageWords } from '../../../studies/matrix/coverage.ts';
import {
  cornerWords,
  gridHead,
  gridRows,
  legendOf,
  matrixSentence,
  rippleNote,
  shortHead,
  shortRows,
  unfeltNote,
} from '../../../studies/matrix/paper.ts';
import type { MatrixReport } from '../../../studies/matrix/report.ts';
import { isPass, statesNotes } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { shortTable } from './table-text.ts';

/** Rows of the grid and commands; all of them stand in the report. */
const most = { rows: 8, replays: 2, kinds: 6 } as const;

/** Rows with a cell that does not pass come first where not all of them fit. */
function chosenRows<Row>(report: MatrixReport, rows: readonly Row[]): readonly Row[] {
  if (rows.length <= most.rows) return rows;
  const { cells, corners } = report;
  const passes = rows.map((_, k) =>
    cells.slice(k * corners.length, (k + 1) * corners.length).every(({ letter }) => isPass(letter)),
  );
  return [...rows.filter((_, k) => !passes[k]), ...rows.filter((_, k) => passes[k])];
}

/** Every cell with its limit where that fits; otherwise the letters, and of each row the tightest. */
function gridText(report: MatrixReport, paint: Paint): string[] {
  const title = 'faults';
  const rows = chosenRows(report, gridRows(report));
  const whole = shortTable(title, { head: gridHead(report), rows }, most.rows, paint);
  if (Math.max(...whole.map((line) => line.length)) <= 120) return whole;
  return [
    ...shortTable(
      title,
      { head: shortHead(report), rows: chosenRows(report, shortRows(report)) },
      most.rows,
      paint,
    ),
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
    ...[coverageWords(report.coverage, most.kinds), unfeltNote(report), rippleNote(report)]
      .filter((note) => note !== '')
      .flatMap((note) => wrap(paint('faint', note), 120)),
    ...gridText(report, paint),
    ...(broken.length === 0
      ? []
      : [
          '',
          paint('strong', 'to repeat what does not pass') +
            paint('faint', broken.length > most.replays ? `  ${most.replays} of ${broken.length}` : ''),
          ...broken.slice(0, most.replays).map(({ replay }) => `  ${replay}`),
        ]),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
