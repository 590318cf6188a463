/** The worst margins on a terminal: a row for each loop, then the points that show them and what was not asked. */
import type { OverFound } from '../../../studies/response/over/found.ts';
import {
  askedWords,
  dampingLines,
  overLists,
  worstHeads,
  worstRows,
} from '../../../studies/response/over/over-words.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

/** Lines of each list that are shown, and points; all stand in the report. */
const most = 3;
const mostPoints = 8;

const width = 120;

export function overText(found: OverFound, paint: Paint): string {
  const right = new Set(worstHeads.map((_, k) => k).filter((k) => k % 2 === 1));
  const list = (head: string, lines: readonly string[], shown = most): string[] =>
    lines.length === 0
      ? []
      : [
          `${paint('strong', head)}${lines.length > shown ? paint('faint', `  ${shown} of ${lines.length}`) : ''}`,
          ...lines.slice(0, shown).flatMap((line) => wrap(`  ${line}`, width, '    ')),
        ];
  const [first] = found.points;
  return [
    `${paint('strong', 'Worst margins')}  ${askedWords(found)}`,
    ...tableText(worstHeads, worstRows(found), paint, right),
    ...dampingLines(found).flatMap((line) => wrap(`  ${line}`, width, '    ')),
    ...list(
      'Points',
      found.points.map(({ name, words }) => `${name}  ${words}`),
      mostPoints,
    ),
    ...overLists(found).flatMap(({ head, lines }) => list(head, lines)),
    ...(first === undefined ? [] : [`${paint('strong', first.name)} by itself: ${first.command}`]),
  ].join('\n');
}
