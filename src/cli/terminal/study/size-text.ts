/** A sizing on a terminal: the answer first, the rest in a screen; all of it stands in the report. */
import { answerOf, isClean, sizeWord } from '../../../studies/size/judge.ts';
import {
  candidateHead,
  candidateRows,
  constraintHead,
  constraintRows,
  leverHead,
  leverRows,
  sizeNotes,
  sizeSentence,
  sizeSimulations,
} from '../../../studies/size/paper.ts';
import type { SizeReport } from '../../../studies/size/report.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { estimateText } from './estimate-text.ts';
import { shortTable } from './table-text.ts';

const width = 120;

/** Rows of each table. */
const most = { limits: 3, candidates: 3, front: 4, levers: 2 } as const;

/** `rules`: with the first estimate by hand, rule by rule. */
export function sizeText(report: SizeReport, next: string, paint: Paint, rules = false): string {
  const { estimate, front, monotone, situations } = report;
  const word = paint(isClean(report) ? 'good' : report.result === null ? 'bad' : 'strong', sizeWord(report));
  const faint = (line: string): string => paint('faint', line);
  return [
    ...wrap(`${word}  ${sizeSentence(report)}`, width, '       '),
    faint(`${sizeSimulations(report)}; ${monotone.note}`),
    ...sizeNotes(report).flatMap((note) => wrap(`  ${note}`, width, '  ')),
    ...(estimate !== null && rules
      ? ['', paint('strong', 'first estimate by hand'), ...estimateText(estimate, faint)]
      : []),
    ...shortTable(
      'what each limit requires',
      { head: constraintHead, rows: constraintRows(report) },
      most.limits,
      paint,
    ),
    ...candidatesText(report, paint),
    ...shortTable(
      'least of the second for each of the first',
      {
        head: ['first parameter', 'least of the second'],
        rows: front.map(({ first, second }) => [first, second ?? 'none']),
      },
      most.front,
      paint,
    ),
    ...shortTable('what would help next', { head: leverHead, rows: leverRows(report) }, most.levers, paint),
    '',
    faint(
      `${situations.length > 1 ? 'what each situation requires and ' : ''}all rows: the report, --json${estimate === null || rules ? '' : `; by hand ${estimate.withSpare} with factors and a spare: --rules`}`,
    ),
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}

/** The answer with the candidates beside it, or the last ones that were tried. */
function candidatesText(report: SizeReport, paint: Paint): string[] {
  const { candidates, situations } = report;
  const answer = answerOf(report);
  const at = answer === undefined ? candidates.length - 1 : candidates.indexOf(answer);
  const first = Math.max(0, Math.min(at - 1, candidates.length - most.candidates));
  const where = situations.length === 1 ? '' : `, each in its tightest of ${situations.length} situations`;
  return shortTable(
    `the answer and what is beside it${where}`,
    { head: candidateHead, rows: candidateRows(report), first },
    most.candidates,
    paint,
  );
}
