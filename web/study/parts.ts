/** What every study's page is made of: panels, tables, maps. */
import type { PlainRow } from '../../src/studies/tables.ts';
import { copied } from '../copied.ts';
import { html } from '../dom.ts';
import { wholePercent } from '../numbers.ts';

export function answerIn(
  host: HTMLElement,
  word: string,
  good: boolean,
  sentence: string,
  small: string,
): void {
  host.append(
    html(
      'div',
      { class: `word ${good ? 'pass' : 'fail'}` },
      html('h2', {}, word),
      html('p', { id: 'sentence' }, sentence),
      html('p', { class: 'small' }, small),
    ),
  );
}

export function panel(
  host: HTMLElement,
  title: string,
  note: string,
  ...children: readonly HTMLElement[]
): void {
  host.append(
    html(
      'section',
      { class: 'panel study', 'aria-label': title },
      html('h3', {}, title),
      note === '' ? null : html('p', { class: 'note' }, note),
      ...children,
    ),
  );
}

export function table(head: readonly string[], rows: readonly PlainRow[]): HTMLElement {
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
          html('tr', {}, ...row.map((cell) => html('td', {}, cell === null ? '' : String(cell)))),
        ),
      ),
    ),
  );
}

export interface MapCell {
  /** Headroom: below 0 is beyond a limit; null where there is no number. */
  readonly headroom: number | null;
  /** A letter or a short word; the headroom where left out. */
  readonly text?: string;
  readonly under?: string;
  /** Shown when the cell is chosen, with the command that opens its run; none where nothing was run. */
  readonly detail: readonly string[];
  readonly replay?: string;
  readonly chosen?: boolean;
  /** Whether it is kept; null where that is not known. */
  readonly good: boolean | null;
}

/** A map of headrooms: each cell says its number, its colour only repeats it. Choosing one shows its detail below its row. */
export function map(
  corner: string,
  columns: readonly string[],
  rows: readonly { readonly name: string; readonly about?: string; readonly cells: readonly MapCell[] }[],
): HTMLElement {
  const detail = html('div', { class: 'detail', 'aria-live': 'polite' });
  const below = html('tr', { hidden: true }, html('td', { colspan: columns.length + 1 }, detail));
  const body = rows.map(({ name, about, cells }) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row', ...(about === undefined || about === '' ? {} : { title: about }) }, name),
      ...cells.map((cell) => html('td', {}, mapButton(cell, detail, below))),
    ),
  );
  return html(
    'div',
    {},
    html(
      'div',
      { class: 'wide', tabindex: 0, role: 'group', 'aria-label': 'map, scrolls sideways' },
      html(
        'table',
        { class: 'map' },
        html(
          'thead',
          {},
          html(
            'tr',
            {},
            html('th', {}, corner),
            ...columns.map((name) => html('th', { scope: 'col' }, name)),
          ),
        ),
        html('tbody', {}, ...body, below),
      ),
    ),
  );
}

function mapButton(cell: MapCell, detail: HTMLElement, below: HTMLElement): HTMLElement {
  const { headroom, text, under, chosen, good } = cell;
  const kind = good === null ? 'none' : good ? 'kept' : 'broken';
  const weight = headroom === null ? 0 : Math.round(100 * Math.min(1, Math.abs(headroom)));
  const button = html(
    'button',
    {
      type: 'button',
      class: `cell ${kind}${chosen === true ? ' chosen' : ''}`,
      style: `--weight:${weight}%`,
    },
    html('b', {}, `${good === null ? '–' : good ? '✓' : '✕'} ${text ?? wholePercent(headroom ?? 0)}`),
    under === undefined ? null : html('small', {}, under),
  );
  button.addEventListener('click', () => {
    below.hidden = false;
    button.closest('tr')?.after(below);
    detail.replaceChildren(
      ...cell.detail.map((line) => html('p', {}, line)),
      ...(cell.replay === undefined ? [] : [copied(cell.replay, 'The run of this cell:')]),
    );
  });
  return button;
}
