/** The ruler that stays in sight: the whole run above, the axis of the stretch shown below, the cursor's moment. */
import { select } from 'd3';
import { html, svg } from './dom.ts';
import { stretchOf } from './frame.ts';
import { wheel } from './gestures.ts';
import type { Lens } from './lens.ts';
import { longestLevel } from './longest-level.ts';
import { duration, moment } from './numbers.ts';
import { makeOverview, type Overviewed } from './overview.ts';
import { drawTimeAxis } from './panels/panel-drawing.ts';
import type { Record } from './record.ts';
import { gutter } from './sheet.ts';
import { watchWidth } from './width.ts';

/** Between the strip of the whole run and the axis: lines join the window with the stretch it opens to [px]. */
const funnel_px = 8;

export function makeRuler(host: HTMLElement, lens: Lens, record: Record, bundle: Overviewed): void {
  const axis = svg('svg', { class: 'time-axis', height: 20 + funnel_px, 'aria-hidden': 'true' });
  const cursor = html('div', { class: 'cursor' });
  const plot = html(
    'div',
    { class: 'plot' },
    html('span', { class: 'of whole', 'aria-hidden': 'true' }, 'whole run'),
    makeOverview(lens, record, bundle),
    html('span', { class: 'of stretch', 'aria-hidden': 'true' }, 'shown'),
    html('div', { class: 'shown' }, axis, cursor),
  );
  const now = html('output', { class: 'now', 'aria-live': 'off' });
  const span = html('span', { class: 'span' });
  const levels = html('span', {
    class: 'levels',
    title: 'no single steps are kept here, and every panel draws levels',
  });
  const buttons = [
    button('−', 'zoom out (key −)', () => lens.zoom(2, lens.cursor_s)),
    button('+', 'zoom in at the cursor (key +)', () => lens.zoom(0.5, lens.cursor_s)),
    button('whole', 'show the whole run (key 0)', () => lens.reset()),
  ];
  const side = html(
    'div',
    { class: 'side' },
    html('div', {}, now, span, levels),
    html('div', { class: 'buttons' }, ...buttons),
  );
  host.append(html('div', { class: 'row' }, plot, side));

  let width = 0;
  const draw = (): void => {
    drawAxis(axis, lens, width);
    const level_s = longestLevel(record, stretchOf(lens, record, width));
    const each = duration(Number(level_s.toPrecision(2)));
    levels.textContent = level_s === 0 ? '' : `smallest and largest over ${each}`;
  };
  const follow = (): void => {
    const place = (lens.cursor_s - lens.from_s) / (lens.to_s - lens.from_s);
    cursor.hidden = place < 0 || place > 1;
    cursor.style.transform = `translateX(${gutter + place * width}px)`;
    now.textContent = moment(lens.cursor_s, lens.to_s - lens.from_s);
    now.dataset['pinned'] = String(lens.pinned);
    const shown = duration(Number((lens.to_s - lens.from_s).toPrecision(4)));
    span.textContent = `${lens.pinned ? 'held' : 'follows the pointer'} · ${shown} shown`;
  };
  watchWidth(plot, (outer) => {
    width = Math.max(50, Math.floor(outer) - gutter);
    axis.setAttribute('width', String(gutter + width));
    draw();
    follow();
  });
  lens.write((change) => {
    if (width === 0) return;
    if (change.span) draw();
    follow();
  });
  plot.addEventListener(
    'wheel',
    (event) => {
      const x = event.clientX - plot.getBoundingClientRect().left - gutter;
      const perPixel = (lens.to_s - lens.from_s) / width;
      wheel(event, lens, () => lens.from_s + Math.min(width, Math.max(0, x)) * perPixel, perPixel, true);
    },
    { passive: false },
  );
}

function drawAxis(axis: SVGSVGElement, lens: Lens, width: number): void {
  const [start, end] = lens.whole_s;
  const left = ((lens.from_s - start) / (end - start)) * width;
  const right = ((lens.to_s - start) / (end - start)) * width;
  select(axis)
    .selectAll<SVGPathElement, null>('path.funnel')
    .data([null])
    .join('path')
    .attr('class', 'funnel')
    .attr('transform', `translate(${gutter},0)`)
    .attr('d', `M${left},0L${right},0L${width},${funnel_px}L0,${funnel_px}Z`);
  drawTimeAxis(axis, lens, width, funnel_px);
}

function button(words: string, title: string, act: () => void): HTMLButtonElement {
  const element = html('button', { type: 'button', title, 'aria-label': title }, words);
  element.addEventListener('click', act);
  return element;
}
