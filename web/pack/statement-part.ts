/** The answer to a specification, line by line, where the run was judged by one. */
import type { StatementLine } from '../../src/analysis/statement/line.ts';
import { inOwnUnit, saidOf, statementHead, stateWords } from '../../src/analysis/statement/words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { instant } from '../numbers.ts';

export function statementPart({ report: { statement } }: Bundle): HTMLElement | null {
  if (statement === undefined) return null;
  const { lines, conditions } = statement;
  return html(
    'section',
    { class: 'statement' },
    html('h2', {}, 'Statement on the specification'),
    html('p', {}, `${statementHead(statement)}.`),
    html(
      'table',
      { class: 'limits' },
      html('thead', {}, html('tr', {}, ...heads.map((head) => html('th', { scope: 'col' }, head)))),
      ...lines.map(entry),
    ),
    ...(conditions.length === 0 ? [] : [html('p', { class: 'note' }, 'What is met rests on:')]),
    html('ul', {}, ...conditions.map((condition) => html('li', {}, condition))),
  );
}

const heads = ['clause', 'requirement', 'state', 'bound', 'found', 'margin', 'where', 'when'] as const;

function entry(line: StatementLine): HTMLElement {
  const { requirement, state, worst } = line;
  const said = saidOf(line);
  const when = worst === null || worst.time_s === null ? '' : instant(worst.time_s);
  const cells = [
    requirement.words,
    stateWords[state],
    requirement.bound,
    inOwnUnit(line, worst?.value ?? null),
    inOwnUnit(line, worst?.margin ?? null),
    worst?.node ?? '',
    when,
  ];
  return html(
    'tbody',
    {},
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, requirement.clause),
      ...cells.map((cell) => html('td', {}, cell)),
    ),
    said === ''
      ? null
      : html(
          'tr',
          {},
          html('td', {}),
          html('td', { colspan: 7, class: 'note' }, `${said} (${requirement.source})`),
        ),
  );
}
