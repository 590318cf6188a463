/** A map of headrooms: each cell says its number, its colour only repeats it. Choosing one opens it below its row. */
import { counted } from '../../src/base/counted.ts';
import { html } from '../dom.ts';
import { wholePercent } from '../numbers.ts';
import type { StudyPage } from './study-page.ts';
import { trialBox } from './trial/box.ts';
import type { AskedTrial } from './trial/runner.ts';

export interface MapCell {
  /** Headroom: below 0 is beyond a limit; null where there is no number. */
  readonly headroom: number | null;
  /** A letter or a short word; the headroom where left out. */
  readonly text?: string;
  readonly under?: string;
  /** Said when the cell is chosen, and below its run what it rests on. */
  readonly said: string;
  readonly restsOn: readonly string[];
  /** null where nothing was run. */
  readonly trial: AskedTrial | null;
  readonly chosen?: boolean;
  /** Whether it is kept; null where that is not known. */
  readonly good: boolean | null;
}

/** So many conditions stand open. */
const few = 3;

export interface MapRow {
  readonly name: string;
  /** What the name stands for; '' where it says it. */
  readonly about?: string;
  readonly cells: readonly MapCell[];
}

export function map(
  page: StudyPage,
  corner: string,
  columns: readonly string[],
  rows: readonly MapRow[],
): HTMLElement {
  const detail = html('div', { class: 'detail', 'aria-live': 'polite' });
  const below = html('tr', { hidden: true }, html('td', { colspan: columns.length + 1 }, detail));
  const open = (cell: MapCell, button: HTMLElement): void => {
    below.hidden = false;
    button.closest('tr')?.after(below);
    detail.replaceChildren(
      html('p', {}, page.words.text(cell.said)),
      ...(cell.trial === null ? [] : [trialBox(page, cell.trial)]),
      ...(cell.restsOn.length === 0 ? [] : [restsOn(page, cell.restsOn)]),
    );
  };
  const body = rows.map(({ name, about = '', cells }) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, name, about === '' ? null : html('small', {}, about)),
      ...cells.map((cell) => html('td', {}, mapButton(page, cell, open))),
    ),
  );
  const heads = columns.map((name) => html('th', { scope: 'col' }, name));
  return html(
    'div',
    { class: 'wide', tabindex: 0, role: 'group', 'aria-label': 'map, scrolls sideways' },
    html(
      'table',
      { class: 'map' },
      html('thead', {}, html('tr', {}, html('th', {}, corner), ...heads)),
      html('tbody', {}, ...body, below),
    ),
  );
}

/** A few stand open, more are folded. */
function restsOn({ words }: StudyPage, lines: readonly string[]): HTMLElement {
  const list = html('ul', { class: 'cautions' }, ...lines.map((line) => html('li', {}, words.text(line))));
  return html(
    'details',
    { open: lines.length <= few },
    html('summary', {}, `Rests on ${counted(lines.length, 'condition')}`),
    list,
  );
}

function mapButton(
  { words }: StudyPage,
  cell: MapCell,
  open: (cell: MapCell, button: HTMLElement) => void,
): HTMLElement {
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
    under === undefined ? null : html('small', {}, words.text(under)),
  );
  button.addEventListener('click', () => open(cell, button));
  return button;
}
