/** Every plot of the run over the whole of it, as vectors for the width of the paper. */
import { html } from '../dom.ts';
import type { Plot, View } from '../taken/plot.ts';

/** Width between the margins of A4 at 96 pixels an inch; other paper scales it. */
const paper_px = 680;

export function plotsPart(plots: readonly Plot[], view: View): HTMLElement {
  return html(
    'section',
    {},
    html('h2', {}, 'Plots'),
    html(
      'p',
      { class: 'note' },
      'Numbers pinned to the traces are those of the limits above, at the worst moment of each; hatched time is not judged.',
    ),
    ...plots.map((plot) => {
      const picture = plot.picture(paper_px, view);
      picture.setAttribute('role', 'img');
      return html('figure', {}, picture, html('figcaption', {}, plot.note));
    }),
  );
}
