/** How warm the copper gets: the bars in their places with current and rise, and a row for each of them. */
import {
  copperHead,
  copperRow,
  copperSentence,
  judgedCopper,
  type Warmth,
  warmthWords,
} from '../../src/analysis/words/copper-words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { watchWidth } from '../width.ts';
import { classOf, drawWarmth } from './warmth-drawing.ts';

/** Narrower than this the drawing scrolls sideways [px]. */
const narrowest_px = 640;

/** Nothing where the report tells of no bars. */
export function showWarmth(host: HTMLElement, { report, scenario }: Bundle): void {
  const bars = judgedCopper(report);
  if (bars.length === 0) {
    host.hidden = true;
    return;
  }
  const stage = html('div', { class: 'stage', tabindex: 0, 'aria-label': 'drawing of the bars' });
  const [first = '', ...rest] = copperHead;
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'How warm the copper gets'),
      html('p', {}, copperSentence(bars)),
      html('div', { class: 'controls key' }, ...keysOf(bars.map(({ warmth }) => warmth))),
    ),
    html(
      'p',
      { class: 'note' },
      'Width and first figure: RMS current, of the whole run or of what goes on after its events, the harder. Rise of a bar over its air, sustained or at its warmest through events.',
    ),
    stage,
    html(
      'div',
      { class: 'scroll', tabindex: 0 },
      html(
        'table',
        { class: 'bands copper' },
        html(
          'thead',
          {},
          html('tr', {}, ...[first, ...rest].map((cell) => html('th', { scope: 'col' }, cell))),
        ),
        html(
          'tbody',
          {},
          ...bars.map((bar) => {
            const [name = '', ...cells] = copperRow(bar);
            return html(
              'tr',
              {},
              html('th', { scope: 'row' }, name),
              ...cells.map((cell) => html('td', {}, cell)),
            );
          }),
        ),
      ),
    ),
  );
  watchWidth(stage, (width) =>
    stage.replaceChildren(drawWarmth(scenario, bars, Math.max(narrowest_px, width))),
  );
}

function keysOf(warmths: readonly Warmth[]): HTMLElement[] {
  const order = Object.keys(warmthWords) as Warmth[];
  return order
    .filter((one) => warmths.includes(one))
    .map((one) => html('span', {}, html('span', { class: `key-bar ${classOf(one)}` }), warmthWords[one]));
}
