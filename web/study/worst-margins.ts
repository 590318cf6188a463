/** The worst margins of a response: a row for each loop, the points that show them, and what was not asked or did not settle. */
import type { OverFound } from '../../src/studies/response/over/found.ts';
import {
  askedWords,
  dampingLines,
  overLists,
  worstHeads,
  worstRows,
} from '../../src/studies/response/over/over-words.ts';
import { inCheckout } from '../copied.ts';
import { html } from '../dom.ts';
import { panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';

export function worstMargins(page: StudyPage, found: OverFound): void {
  const list = (head: string, lines: readonly string[]): HTMLElement[] =>
    lines.length === 0
      ? []
      : [html('h4', {}, head), html('ul', {}, ...lines.map((line) => html('li', {}, page.words.text(line))))];
  panel(
    page,
    'Worst margins',
    `${askedWords(found)}. In brackets the margin as built, as stated, at the highest load. What was not asked may be worse.`,
    table(page, worstHeads, worstRows(found)),
    table(
      page,
      ['point', 'where', 'values that differ'],
      found.points.map(({ name, words, changes }) => [name, words, changes.length]),
    ),
    ...list('Modes', dampingLines(found)),
    ...overLists(found).flatMap(({ head, lines }) => list(head, lines)),
    html('h4', {}, 'The points by themselves'),
    html('p', { class: 'note' }, `By command; ${inCheckout}.`),
    // As they stand: a space that does not break is no space to a shell.
    ...found.points.map(({ name, command }) =>
      html('p', { class: 'by-itself' }, `${name} `, html('code', {}, command)),
    ),
  );
}
