/** The table behind a plot: its rows in the stretch shown, at most 200 at a time, with the cursor's row among them marked. */
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import type { Plot } from './plot.ts';
import { rowAt, type Table } from './table.ts';

const most = 200;

/** Which rows stand there: from `first` to `last` of those that `from` to `to` are shown. */
interface Part {
  readonly first: number;
  readonly last: number;
  readonly from: number;
  readonly to: number;
}

export interface ShownTable {
  readonly element: HTMLElement;
  /** Reads the plot's numbers anew and shows them. */
  open(): void;
  /** Follows the lens while it is open. */
  follow(): void;
}

export function shownTable(plot: Pick<Plot, 'title' | 'table'>, lens: Lens): ShownTable {
  const caption = html('caption');
  const body = html('tbody');
  const head = html('thead');
  const scroll = html(
    'div',
    {
      class: 'scroll',
      tabindex: 0,
      role: 'region',
      'data-own-keys': true,
      'aria-label': `${plot.title} in numbers`,
    },
    html('table', { class: 'numbers' }, caption, head, body),
  );
  let table: Table = { over: { name: '', values: [] }, columns: [] };
  let shown = '';
  let marked: Element | null = null;

  const follow = (): void => {
    const row = table.over.name === 'time_s' ? rowAt(table, lens.cursor_s) : null;
    const part = partOf(table, lens, row);
    const key = `${part.first} ${part.last} ${part.from} ${part.to}`;
    if (key !== shown) {
      shown = key;
      caption.textContent = said(plot.title, part);
      body.replaceChildren(...rowsOf(table, part));
    }
    marked?.removeAttribute('aria-current');
    marked = row === null ? null : (body.children[row - part.first] ?? null);
    marked?.setAttribute('aria-current', 'true');
  };
  return {
    element: scroll,
    open() {
      table = plot.table();
      shown = '';
      const names = [table.over, ...table.columns].map(({ name }) => html('th', { scope: 'col' }, name));
      head.replaceChildren(html('tr', {}, ...names));
      follow();
    },
    follow,
  };
}

/** Rows over time are those of the stretch shown, by the two hundred about the cursor; others are all there. */
function partOf(table: Table, lens: Lens, cursor: number | null): Part {
  const rows = table.over.values.length;
  if (cursor === null) return { first: 0, last: Math.min(rows, most) - 1, from: 0, to: rows - 1 };
  const [from, to] = [rowAt(table, lens.from_s), rowAt(table, lens.to_s)];
  const within = Math.min(to, Math.max(from, cursor));
  const first = from + most * Math.floor((within - from) / most);
  return { first, last: Math.min(to, first + most - 1), from, to };
}

function said(title: string, { first, last, from, to }: Part): string {
  const all = to - from + 1;
  if (all <= 0) return `${title}: no rows`;
  if (last - first + 1 === all) return `${title}: the ${all} rows of what is shown`;
  return `${title}: rows ${first - from + 1} to ${last - from + 1} of the ${all} of what is shown; the CSV has all`;
}

function rowsOf({ over, columns }: Table, { first, last }: Part): HTMLElement[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, number(over.values[first + k]!)),
      ...columns.map(({ values }) => html('td', {}, number(values[first + k]!))),
    ),
  );
}

/** Seven digits: what is carried has no more. */
function number(value: number): string {
  return Number.isNaN(value) ? '–' : String(Number(value.toPrecision(7))).replace('-', '−');
}
