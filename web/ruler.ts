/** The time ruler that stays in sight: the whole run with the stretch shown, the axis, the cursor's moment. */
import { axisBottom, scaleLinear, select } from 'd3';
import type { Bundle } from '../src/bundle/format.ts';
import { makeOutline, outline } from './columns.ts';
import { html, svg } from './dom.ts';
import { wheel } from './gestures.ts';
import type { Lens } from './lens.ts';
import { duration, moment } from './numbers.ts';
import type { Record } from './record.ts';
import { gutter, momentTicks, size } from './sheet.ts';
import { ink } from './theme.ts';

const overview_px = 30;

export function makeRuler(host: HTMLElement, lens: Lens, record: Record, { report, result }: Bundle): void {
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const shown = html('div', { class: 'shown' });
  const overview = html(
    'div',
    {
      class: 'overview',
      style: `height:${overview_px}px`,
      title: 'the whole run: drag to move the view, wheel to zoom',
    },
    canvas,
    shown,
  );
  const axis = svg('svg', { class: 'time-axis', height: 22, 'aria-hidden': 'true' });
  const cursor = html('div', { class: 'cursor' });
  const plot = html('div', { class: 'plot' }, overview, axis, cursor);
  const now = html('output', { class: 'now', 'aria-live': 'off' });
  const span = html('span', { class: 'span' });
  const buttons = [
    button('−', 'zoom out (key −)', () => lens.zoom(2, lens.cursor_s)),
    button('+', 'zoom in at the cursor (key +)', () => lens.zoom(0.5, lens.cursor_s)),
    button('whole', 'show the whole run (key 0)', () => lens.reset()),
  ];
  const side = html(
    'div',
    { class: 'side' },
    html('div', {}, now, span),
    html('div', { class: 'buttons' }, ...buttons),
  );
  host.append(html('div', { class: 'row' }, plot, side));
  const space = { outline: makeOutline(100) };

  const width = (): number => Math.max(50, plot.clientWidth - gutter);
  const [start, end] = lens.whole_s;

  const draw = (): void => {
    const w = width();
    if (space.outline.x.length < 3 * w + 12) space.outline = makeOutline(w);
    drawOverview(
      canvas,
      w,
      record,
      lens,
      space.outline,
      report.window_s,
      result.log.map(({ time_s }) => time_s),
    );
    const x = scaleLinear([lens.from_s, lens.to_s], [0, w]);
    const left = ((lens.from_s - start) / (end - start)) * w;
    shown.style.left = `${left}px`;
    shown.style.width = `${Math.max(3, ((lens.to_s - lens.from_s) / (end - start)) * w)}px`;
    select(axis)
      .attr('width', gutter + w)
      .selectAll<SVGGElement, null>('g')
      .data([null])
      .join('g')
      .attr('transform', `translate(${gutter},0)`)
      .call(
        axisBottom<number>(x)
          .tickValues(momentTicks(lens.from_s, lens.to_s, w))
          .tickSize(5)
          .tickFormat((t) =>
            moment(t, (lens.to_s - lens.from_s) / 10)
              .replace(/(\.\d*?)0+ s/, '$1 s')
              .replace('. s', ' s'),
          ),
      )
      // A label at the end would run into what stands beside.
      .selectAll<SVGTextElement, number>('text')
      .attr('text-anchor', (t) => (x(t) > w - 12 ? 'end' : 'middle'));
  };
  lens.watch((change) => {
    if (change.span) draw();
    const place = (lens.cursor_s - lens.from_s) / (lens.to_s - lens.from_s);
    cursor.hidden = place < 0 || place > 1;
    cursor.style.transform = `translateX(${gutter + place * width()}px)`;
    now.textContent = moment(lens.cursor_s, lens.to_s - lens.from_s);
    now.dataset['pinned'] = String(lens.pinned);
    span.textContent = `${lens.pinned ? 'held' : 'follows the pointer'} · ${duration(Number((lens.to_s - lens.from_s).toPrecision(4)))} shown`;
  });

  let dragging = false;
  const goTo = (event: PointerEvent): void => {
    const x = event.clientX - overview.getBoundingClientRect().left;
    const t = start + (x / width()) * (end - start);
    const half = (lens.to_s - lens.from_s) / 2;
    lens.show(t - half, t + half);
  };
  overview.addEventListener('pointerdown', (event) => {
    dragging = true;
    overview.setPointerCapture(event.pointerId);
    goTo(event);
  });
  overview.addEventListener('pointermove', (event) => {
    if (dragging) goTo(event);
  });
  overview.addEventListener('pointerup', () => {
    dragging = false;
  });
  plot.addEventListener(
    'wheel',
    (event) => {
      const x = event.clientX - plot.getBoundingClientRect().left - gutter;
      const perPixel = (lens.to_s - lens.from_s) / width();
      wheel(event, lens, () => lens.from_s + Math.min(width(), Math.max(0, x)) * perPixel, perPixel, true);
    },
    { passive: false },
  );
}

function button(words: string, title: string, act: () => void): HTMLButtonElement {
  const element = html('button', { type: 'button', title, 'aria-label': title }, words);
  element.addEventListener('click', act);
  return element;
}

/** The demand over the whole run, dimmed outside the judged window, with a tick for everything in the log. */
function drawOverview(
  canvas: HTMLCanvasElement,
  width: number,
  record: Record,
  lens: Lens,
  space: ReturnType<typeof makeOutline>,
  judged: { readonly from: number; readonly to: number },
  happenings_s: readonly number[],
): void {
  size(canvas, width, overview_px);
  const pen = canvas.getContext('2d')!;
  pen.clearRect(0, 0, width, overview_px);
  const [start, end] = lens.whole_s;
  const x = (t: number): number => ((t - start) / (end - start)) * width;
  const demand = record.series('total.load_W');
  if (demand !== null) {
    const stretch = { from_s: start, to_s: end, width, firstBucket: 0, lastBucket: record.bucketCount - 1 };
    outline(space, record.edges_s, demand, stretch);
    let top = 1;
    for (let k = 0; k < space.count; k += 1) top = Math.max(top, space.high[k]!);
    pen.fillStyle = ink('faint');
    pen.beginPath();
    pen.moveTo(0, overview_px);
    for (let k = 0; k < space.count; k += 1)
      pen.lineTo(space.x[k]!, overview_px - (0.78 * overview_px * space.high[k]!) / top);
    pen.lineTo(width, overview_px);
    pen.fill();
  }
  pen.fillStyle = ink('copper');
  for (const t of happenings_s) pen.fillRect(Math.round(x(t)), 0, 1, 5);
  pen.fillStyle = ink('panel');
  pen.globalAlpha = 0.6;
  pen.fillRect(0, 0, x(judged.from), overview_px);
  pen.fillRect(x(judged.to), 0, width, overview_px);
  pen.globalAlpha = 1;
}
