/** A sizing on a terminal. */
import { counted } from '../../../base/counted.ts';
import type { Estimate } from '../../../studies/estimate/estimate.ts';
import { isClean, sizeWord } from '../../../studies/size/judge.ts';
import {
  candidateHead,
  candidateRows,
  constraintHead,
  constraintRows,
  leverHead,
  leverRows,
  situationHead,
  situationRows,
  sizeSentence,
} from '../../../studies/size/paper.ts';
import type { SizeReport } from '../../../studies/size/report.ts';
import { statesNotes, statesWords } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

const width = 120;

export function sizeText(report: SizeReport, next: string, paint: Paint): string {
  const { estimate, front, monotone, runs, situations } = report;
  return [
    ...wrap(
      `${paint(isClean(report) ? 'good' : report.result === null ? 'bad' : 'strong', sizeWord(report))}  ${sizeSentence(report)}`,
      width,
      '       ',
    ),
    paint('faint', `${counted(runs, 'simulation')}: ${statesWords(report.states)}; ${monotone.note}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, width, '  ')),
    ...(estimate === null
      ? []
      : [
          '',
          paint('strong', 'first estimate by hand'),
          ...estimateText(estimate, (line) => paint('faint', line)),
        ]),
    '',
    paint('strong', 'what each limit requires'),
    ...tableText(constraintHead, constraintRows(report).slice(0, 12), paint),
    '',
    paint('strong', 'candidates, each in its tightest of ') +
      paint('strong', situations.length === 1 ? 'one situation' : `${situations.length} situations`),
    ...tableText(candidateHead, candidateRows(report), paint),
    ...(situations.length > 1
      ? [
          '',
          paint('strong', 'what each situation requires'),
          ...tableText(situationHead, situationRows(report), paint),
        ]
      : []),
    ...(front.length === 0
      ? []
      : [
          '',
          paint('strong', 'least of the second for each of the first'),
          ...tableText(
            ['first parameter', 'least of the second'],
            front.map(({ first, second }) => [first, second ?? 'none']),
            paint,
          ),
        ]),
    '',
    paint('strong', 'what would help next'),
    ...tableText(leverHead, leverRows(report), paint),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}

/** Rule, numbers → what it requires, and below it the formula; `faint` paints the formula. */
export function estimateText(
  { lines, energyAlone, most, withSpare }: Estimate,
  faint: (line: string) => string = (line) => line,
): string[] {
  return [
    ...lines.flatMap(({ rule, title, about, formula, numbers, asks }) => [
      ...wrap(
        `  ${String(rule).padStart(2)}  ${title}${about === '' ? '' : ` (${about})`}: ${numbers} → ${asks}`,
        width,
        '      ',
      ),
      ...wrap(faint(`      ${formula}`), width, '      '),
    ]),
    `  Energy alone would require ${energyAlone}; rule ${most?.rule} requires ${most?.trays}; with factors and a spare ${withSpare}.`,
  ];
}
