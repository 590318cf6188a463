/** What none of it covers, in the words of the page's foot. */
import { html } from '../dom.ts';

export function cautionsPart(): HTMLElement {
  const words = document.querySelectorAll('footer p');
  return html(
    'section',
    { class: 'cautions' },
    html('h2', {}, 'Scope and safety'),
    ...[...words].map((paragraph) => html('p', {}, paragraph.textContent)),
  );
}
