/** A gains map on a terminal: the letters, the edges, the proof in time, what a supplier must meet. */
import { digits } from '../../../base/digits.ts';
import { acceptanceLines } from '../../../studies/gains/accept.ts';
import { circumstanceLines, gainsSentence, mapLetters } from '../../../studies/gains/paper.ts';
import type { GainsReport } from '../../../studies/gains/report.ts';
import { restsOn } from '../../../studies/trials/states.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

export function gainsText(report: GainsReport, next: string, paint: Paint): string {
  const { recommended, confirmation, requirements } = report;
  return [
    ...wrap(gainsSentence(report), 120, '  '),
    '',
    ...mapLetters(report).flatMap((line) =>
      line.length > 116 ? wrap(`  ${line}`, 118, '    ') : [`  ${line}`],
    ),
    '',
    paint('strong', 'acceptable is'),
    ...acceptanceLines(report.acceptance).flatMap((line) => wrap(`  ${line}`, 118, '    ')),
    ...(report.circumstances === 0
      ? []
      : [
          '',
          paint('strong', 'in every circumstance'),
          ...circumstanceLines(report).flatMap((line) => wrap(`  ${line}`, 118, '    ')),
        ]),
    ...(recommended === null
      ? []
      : [
          '',
          paint('strong', 'distance to the edge of the acceptable region'),
          ...tableText(
            ['', 'side', 'last acceptable', 'relative to the chosen', 'not any more at'],
            recommended.edges.map((edge) => [
              edge.path,
              edge.side,
              edge.text,
              edge.factor === null ? '–' : `× ${digits(edge.factor)}`,
              edge.beyond ?? 'the map ends here',
            ]),
            paint,
            new Set([2, 3]),
          ),
        ]),
    ...(confirmation === null
      ? []
      : [
          '',
          paint('strong', 'in time, limits and modes on'),
          ...[confirmation.summary, ...restsOn(confirmation)].flatMap((words) =>
            wrap(`  ${words}`, 118, '  '),
          ),
          `  ${confirmation.replay}`,
        ]),
    ...(requirements.length === 0
      ? []
      : [
          '',
          paint('strong', 'what a supplier must meet, and how it is tested'),
          ...requirements.flatMap(({ path, text: line, why, test }) => [
            `  ${path}: ${line}`,
            ...wrap(`    ${why}`, 114, '    '),
            ...wrap(`    test: ${test}`, 114, '      '),
          ]),
        ]),
    '',
    ...report.remarks.flatMap((remark) => wrap(`  ${remark}`, 118, '    ')),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
