/** The small menu of every plot: keep it as a picture, as vectors, as numbers, or show the table behind it. */
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { saveFile } from '../save-file.ts';
import { csvOf } from './csv.ts';
import type { Plot } from './plot.ts';
import { pngOf, svgText } from './png.ts';
import { shownTable } from './shown-table.ts';

/** Width of a picture that is kept [px]. */
const picture_px = 1000;

/** Puts a menu at a plot; its files are named by the scenario and the plot. */
export function addMenu(plot: Plot, lens: Lens, scenario: string): void {
  const name = `${scenario}-${plot.id}`.replace(/[^\w.-]+/g, '-');
  const picture = (): SVGSVGElement => plot.picture(picture_px, lens);
  const table = shownTable(plot, lens);
  const list = html('button', { type: 'button', 'aria-pressed': 'false' }, 'Show as table');
  const menu = html(
    'details',
    { class: 'take' },
    html('summary', { 'aria-label': `Keep or list ${plot.title}` }, 'keep …'),
  );
  const choice = (words: string, act: () => void | Promise<void>): HTMLElement => {
    const button = html('button', { type: 'button' }, words);
    button.addEventListener('click', async () => {
      await act();
      menu.open = false;
    });
    return button;
  };
  menu.append(
    html(
      'div',
      { class: 'choices' },
      choice('Picture (PNG)', async () => saveFile(`${name}.png`, await pngOf(picture()))),
      choice('Vectors (SVG)', () =>
        saveFile(`${name}.svg`, new Blob([svgText(picture())], { type: 'image/svg+xml' })),
      ),
      choice('Numbers (CSV)', () =>
        saveFile(`${name}.csv`, new Blob([csvOf(plot.table())], { type: 'text/csv' })),
      ),
      list,
    ),
  );
  list.addEventListener('click', () => {
    const open = !table.element.isConnected;
    list.setAttribute('aria-pressed', String(open));
    menu.open = false;
    if (!open) {
      table.element.remove();
      return;
    }
    table.open();
    plot.drawing.after(table.element);
  });
  menu.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || !menu.open) return;
    // Escape closes the menu and leaves the cursor as it is.
    event.stopPropagation();
    menu.open = false;
    menu.querySelector('summary')?.focus();
  });
  menu.addEventListener('focusout', ({ relatedTarget }) => {
    if (relatedTarget instanceof Node && !menu.contains(relatedTarget)) menu.open = false;
  });
  lens.write(() => {
    if (table.element.isConnected) table.follow();
  });
  plot.controls.append(menu);
}
