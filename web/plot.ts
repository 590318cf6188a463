/** The frame every time panel stands in: canvas, value axis, grid, cursor, read-out; it follows the lens. */
import { makeOutline } from './columns.ts';
import { html, svg } from './dom.ts';
import { type Frame, stretchOf } from './frame.ts';
import { listenToPointer } from './gestures.ts';
import type { Lens } from './lens.ts';
import { drawPanel, drawValueAxis, type ValueAxis, valueAxis } from './panels/panel-drawing.ts';
import { panelPicture } from './panels/panel-picture.ts';
import { type PanelSpec, rangeOf } from './panels/panel-spec.ts';
import { aired, including } from './panels/range.ts';
import { fillReadout } from './panels/read-out.ts';
import type { Record } from './record.ts';
import { gutter, size } from './sheet.ts';
import { addPlot } from './taken/plot.ts';
import { watchWidth } from './width.ts';

/** A panel made taller is this many times as high. */
const tall = 3;

/** Puts a panel into `host` and keeps it drawn. Returns a function that draws it again after a choice. */
export function makePanel(host: HTMLElement, lens: Lens, record: Record, spec: PanelSpec): () => void {
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const axes = svg('svg', { class: 'axis', 'aria-hidden': 'true', width: gutter, height: spec.height });
  const cursor = html('div', { class: 'cursor' });
  const rubber = html('div', { class: 'rubber', hidden: true });
  const plot = html(
    'div',
    {
      class: 'plot',
      role: 'img',
      'aria-label': `${spec.title}: ${spec.note}`,
      style: `height:${spec.height}px`,
    },
    canvas,
    axes,
    rubber,
    cursor,
  );
  const readout = html('table', { class: 'readout', 'aria-label': `${spec.title} at the cursor` });
  const taller = html('button', { type: 'button', class: 'quiet', 'aria-pressed': 'false' }, 'taller');
  const fit = html('button', { type: 'button', class: 'quiet', 'aria-pressed': 'false' }, 'fit values');
  const controls = html('div', { class: 'controls' }, ...(spec.controls ?? []), taller, fit);
  const row = html('div', { class: 'row' }, plot, readout);
  host.append(
    html(
      'section',
      { class: 'panel', id: `panel-${spec.id}` },
      html('header', {}, html('h3', {}, spec.title), html('p', {}, spec.note), controls),
      row,
    ),
  );
  addPlot({
    id: spec.id,
    title: spec.title,
    note: spec.note,
    controls,
    drawing: row,
    picture: (outer, view) => panelPicture(spec, record, whole, outer, view),
    table: () => spec.table(),
  });
  const pen = canvas.getContext('2d')!;
  const wholeOf = (): readonly [number, number] =>
    spec.whole ?? aired(including(rangeOf(spec, 0, record.bucketCount - 1), spec.include));
  let whole = wholeOf();
  let width = 0;
  let height = spec.height;
  let fitted = false;
  let space = makeOutline(100);
  /** The axis of what was drawn last, until it is written. */
  let fresh: ValueAxis | null = null;

  const draw = (): void => {
    const stretch = stretchOf(lens, record, width);
    const range = fitted ? aired(rangeOf(spec, stretch.firstBucket, stretch.lastBucket)) : whole;
    const axis = valueAxis(range, height);
    if (space.x.length < 3 * width + 12) space = makeOutline(width);
    size(canvas, width, height);
    const frame: Frame = {
      pen,
      width,
      height,
      stretch,
      buckets: record,
      outline: space,
      y: axis.y,
      words: [],
    };
    pen.clearRect(0, 0, width, height);
    drawPanel(frame, axis.ticks, spec, record);
    fresh = axis;
  };
  const write = (): void => {
    if (fresh !== null) drawValueAxis(axes, fresh, spec.unit);
    fresh = null;
    const place = (lens.cursor_s - lens.from_s) / (lens.to_s - lens.from_s);
    cursor.hidden = place < 0 || place > 1;
    cursor.style.transform = `translateX(${gutter + place * width}px)`;
    fillReadout(readout, spec.rows(record.bucketAt(lens.cursor_s)));
  };
  // A panel out of sight is drawn when it comes into sight.
  let [inSight, stale] = [true, false];
  const show = (): void => {
    stale = false;
    if (width === 0) return;
    draw();
    write();
  };
  taller.addEventListener('click', () => {
    height = height === spec.height ? tall * spec.height : spec.height;
    taller.setAttribute('aria-pressed', String(height !== spec.height));
    plot.style.height = `${height}px`;
    axes.setAttribute('height', String(height));
    show();
  });
  fit.addEventListener('click', () => {
    fitted = !fitted;
    fit.setAttribute('aria-pressed', String(fitted));
    show();
  });
  listenToPointer(plot, rubber, lens);
  watchWidth(plot, (outer) => {
    width = Math.max(50, Math.floor(outer) - gutter);
    show();
  });
  new IntersectionObserver(
    ([entry]) => {
      inSight = entry?.isIntersecting ?? true;
      if (inSight && stale) show();
    },
    { rootMargin: '300px' },
  ).observe(plot);
  lens.watch(({ span, look }) => {
    if (!inSight) stale = true;
    else if ((span || look) && width > 0) draw();
  });
  lens.write(() => {
    if (inSight && width > 0) write();
  });
  return () => {
    whole = wholeOf();
    show();
  };
}
