/** The frame of a paper: what it is of, a note, what it holds. */
import { html } from '../dom.ts';

export function paper(title: string, note: string, ...children: readonly HTMLElement[]): HTMLElement {
  return html(
    'section',
    { class: 'paper' },
    html('h3', {}, title),
    html('p', { class: 'note' }, note),
    ...children,
  );
}
