/** What a panel says in numbers beside or under its drawing: a line for each thing drawn, at the cursor. */
import { html } from '../dom.ts';
import type { Ink } from '../theme.ts';

/** A mark that repeats how the thing is drawn, its name, its value at the cursor. */
export interface Row {
  readonly mark: string;
  readonly tint: Ink;
  readonly name: string;
  readonly value: string;
}

/** Brings the table to the rows, touching only what has changed. */
export function fillReadout(table: HTMLTableElement, rows: readonly Row[]): void {
  while (table.rows.length > rows.length) table.deleteRow(-1);
  while (table.rows.length < rows.length) {
    const row = table.insertRow();
    row.append(html('td', {}, html('i', { class: 'mark' })), html('th', { scope: 'row' }), html('td', {}));
  }
  rows.forEach(({ mark, tint, name, value }, k) => {
    const [first, second, third] = table.rows[k]!.children;
    const sign = first!.firstElementChild as HTMLElement;
    if (sign.dataset['mark'] !== mark || sign.dataset['tint'] !== tint) {
      sign.dataset['mark'] = mark;
      sign.dataset['tint'] = tint;
      sign.style.setProperty('--tint', `var(--${tint})`);
    }
    if (second!.textContent !== name) second!.textContent = name;
    if (third!.textContent !== value) third!.textContent = value;
  });
}
