/** One limit as a row: its mark and number, its bar, its numbers; chosen, it shows its moment and what explains it. */
import { html } from '../dom.ts';
import { unbroken } from '../numbers.ts';
import { isJudged, type Ranked } from '../ranked.ts';
import { allowanceBar } from './bar.ts';
import { marks } from './marks.ts';
import { headroomOf, readingOf } from './numbers.ts';

export function findingRow({ number, finding }: Ranked): HTMLButtonElement {
  const [glyph, word] = marks[finding.verdict];
  return html(
    'button',
    { type: 'button', class: `finding ${finding.verdict}`, 'aria-pressed': 'false', 'data-id': finding.id },
    html('span', { class: 'number' }, String(number)),
    html('span', { class: 'glyph', 'aria-hidden': 'true' }, glyph),
    html(
      'span',
      { class: 'title' },
      unbroken(finding.title),
      finding.column === 'normal' ? null : html('small', {}, `${finding.column} column`),
      html('small', { class: finding.verdict === 'pass' ? 'unseen' : '' }, word),
    ),
    allowanceBar(finding),
    ...(isJudged(finding) || finding.reason === null
      ? [
          html('span', { class: 'value' }, readingOf(finding)),
          html('span', { class: 'headroom' }, headroomOf(finding)),
        ]
      : [html('span', { class: 'why' }, finding.reason)]),
  );
}
