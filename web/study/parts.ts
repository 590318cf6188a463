/** What every study's page is made of: its answer, panels, tables. */
import type { PlainRow } from '../../src/studies/tables.ts';
import { html } from '../dom.ts';
import { unbroken } from '../numbers.ts';
import type { StudyPage } from './study-page.ts';

export function answerIn(
  { answer, words }: Pick<StudyPage, 'answer' | 'words'>,
  word: string,
  how: 'pass' | 'pass_with_conditions' | 'fail',
  sentence: string,
  small: string,
): void {
  answer.append(
    html(
      'div',
      { class: `word ${how}` },
      html('h2', {}, word),
      html('p', { id: 'sentence' }, words.text(sentence)),
      html('p', { class: 'small' }, words.text(small)),
    ),
  );
}

export function panel(
  { parts, words }: Pick<StudyPage, 'parts' | 'words'>,
  title: string,
  note: string,
  ...children: readonly HTMLElement[]
): void {
  parts.append(
    html(
      'section',
      { class: 'panel study', 'aria-label': title },
      html('h3', {}, title),
      note === '' ? null : html('p', { class: 'note' }, words.text(note)),
      ...children,
    ),
  );
}

export function table(
  page: Pick<StudyPage, 'words'>,
  head: readonly string[],
  rows: readonly PlainRow[],
): HTMLElement {
  return html(
    'div',
    { class: 'wide', tabindex: 0, role: 'group', 'aria-label': 'table, scrolls sideways' },
    html(
      'table',
      {},
      html('thead', {}, html('tr', {}, ...head.map((cell) => html('th', { scope: 'col' }, cell)))),
      html(
        'tbody',
        {},
        ...rows.map((row) =>
          html('tr', {}, ...row.map((cell) => html('td', {}, ...inWords(page, String(cell ?? ''))))),
        ),
      ),
    ),
  );
}

/** A key that stands alone is kept small below its words: a command takes it. */
function inWords({ words }: Pick<StudyPage, 'words'>, text: string): (HTMLElement | string)[] {
  const known = words.key(text);
  return known === null || known === text
    ? [unbroken(words.text(text))]
    : [known, html('small', { class: 'key' }, text)];
}
