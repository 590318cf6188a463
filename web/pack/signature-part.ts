/** Room for whoever signs the verdict. */
import { html } from '../dom.ts';

export function signaturePart(): HTMLElement {
  return html(
    'section',
    { class: 'signature' },
    html('h2', {}, 'Reviewed'),
    html(
      'dl',
      {},
      ...['Name', 'Date', 'Signature'].map((term) => html('div', {}, html('dt', {}, term), html('dd', {}))),
    ),
  );
}
