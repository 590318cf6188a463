/** What happened, each moment a link to it. */
import { counted } from '../../src/base/counted.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { moment } from '../numbers.ts';
import { paper } from './paper.ts';

/** Longer logs are cut here; the bundle's log.json has all. */
const longest = 400;

export function log(lens: Lens, { result }: Bundle): HTMLElement {
  const shown = result.log.slice(0, longest);
  const rows = shown.map(({ time_s, who, what, detail }) => {
    const go = html('button', { type: 'button', class: 'link' }, moment(time_s, 0.1));
    go.addEventListener('click', () => lens.pin(time_s));
    return html(
      'tr',
      {},
      html('td', {}, go),
      html('th', { scope: 'row' }, who),
      html('td', { class: 'kind' }, what),
      html('td', {}, detail),
    );
  });
  const more = result.log.length - shown.length;
  const note =
    result.log.length === 0
      ? 'no entries'
      : `${counted(result.log.length, 'entry', 'entries')}${more > 0 ? `, the first ${longest} shown; log.json has all` : ''}`;
  const section = paper(
    'Log',
    note,
    html('div', { class: 'scroll', tabindex: 0 }, html('table', { class: 'log' }, ...rows)),
  );
  section.classList.add('wide');
  return section;
}
