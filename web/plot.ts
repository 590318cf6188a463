/** The frame every time panel stands in: canvas, value axis, grid, cursor, read-out; it follows the lens. */
import { axisLeft, type ScaleLinear, scaleLinear, select } from 'd3';
import { makeOutline } from './columns.ts';
import { html, svg } from './dom.ts';
import { type Frame, stretchOf } from './frame.ts';
import { listenToPointer } from './gestures.ts';
import type { Shade } from './judged-time.ts';
import type { Lens } from './lens.ts';
import { drawPins, type Pin } from './panels/pins.ts';
import { aired, extentOf, including } from './panels/range.ts';
import { fillReadout, type Row } from './panels/read-out.ts';
import { drawShades } from './panels/shade.ts';
import type { Record } from './record.ts';
import type { Band } from './series.ts';
import { axisText, gutter, momentTicks, size } from './sheet.ts';
import { ink } from './theme.ts';
import { watchWidth } from './width.ts';

/** A panel made taller is this many times as high. */
const tall = 3;

export interface PanelSpec {
  readonly id: string;
  readonly title: string;
  readonly note: string;
  readonly height: number;
  readonly unit: string;
  /** What the value axis must hold, and values it holds besides while it is not fitted to the view. */
  series(): readonly Band[];
  readonly include: readonly number[];
  /** Replaces the range of `series`, for example where things are stacked. */
  readonly range?: (first: number, last: number) => readonly [number, number];
  /** The range until it is fitted, where it is not that of all of `series`. */
  readonly whole?: readonly [number, number];
  /** Time that is not judged. */
  readonly shades: readonly Shade[];
  draw(frame: Frame): void;
  rows(bucket: number): readonly Row[];
  /** Worst moments, and the value at which each lies on what is drawn. */
  readonly pins?: readonly Pin[];
  pinned?(pin: Pin, bucket: number): number;
  readonly controls?: readonly HTMLElement[];
}

/** Puts a panel into `host` and keeps it drawn. Returns a function that draws it again after a choice. */
export function makePanel(host: HTMLElement, lens: Lens, record: Record, spec: PanelSpec): () => void {
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const axis = svg('svg', { class: 'axis', 'aria-hidden': 'true', width: gutter, height: spec.height });
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
    axis,
    rubber,
    cursor,
  );
  const readout = html('table', { class: 'readout', 'aria-label': `${spec.title} at the cursor` });
  const taller = html('button', { type: 'button', class: 'quiet', 'aria-pressed': 'false' }, 'taller');
  const fit = html('button', { type: 'button', class: 'quiet', 'aria-pressed': 'false' }, 'fit values');
  const controls = html('div', { class: 'controls' }, ...(spec.controls ?? []), taller, fit);
  host.append(
    html(
      'section',
      { class: 'panel', id: `panel-${spec.id}` },
      html('header', {}, html('h3', {}, spec.title), html('p', {}, spec.note), controls),
      html('div', { class: 'row' }, plot, readout),
    ),
  );
  const pen = canvas.getContext('2d')!;
  const wholeOf = (): readonly [number, number] =>
    spec.whole ?? aired(including(rangeOf(spec, 0, record.bucketCount - 1), spec.include));
  let whole = wholeOf();
  let width = 0;
  let height = spec.height;
  let fitted = false;
  let space = makeOutline(100);
  /** The axis of what was drawn last, until it is written. */
  let fresh: { readonly y: ScaleLinear<number, number>; readonly ticks: readonly number[] } | null = null;

  const draw = (): void => {
    const stretch = stretchOf(lens, record, width);
    const range = fitted ? aired(rangeOf(spec, stretch.firstBucket, stretch.lastBucket)) : whole;
    const y = scaleLinear(range, [height - 4, 8]);
    const ticks = y.ticks(Math.max(3, height / 40));
    if (space.x.length < 3 * width + 12) space = makeOutline(width);
    size(canvas, width, height);
    const frame: Frame = { pen, width, height, stretch, buckets: record, outline: space, y, words: [] };
    pen.clearRect(0, 0, width, height);
    drawGrid(frame, ticks);
    drawShades(frame, spec.shades);
    spec.draw(frame);
    const { pinned } = spec;
    if (spec.pins !== undefined && pinned !== undefined)
      drawPins(frame, spec.pins, (pin) => pinned(pin, record.bucketAt(pin.time_s)));
    fresh = { y, ticks };
  };
  const write = (): void => {
    if (fresh !== null) drawAxis(axis, fresh.y, fresh.ticks, spec.unit);
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
    axis.setAttribute('height', String(height));
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
  addEventListener('beforeprint', show);
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

function rangeOf(spec: PanelSpec, first: number, last: number): readonly [number, number] {
  return spec.range?.(first, last) ?? extentOf(spec.series(), first, last);
}

function drawGrid({ pen, width, height, stretch, y }: Frame, ticks: readonly number[]): void {
  pen.strokeStyle = ink('line');
  pen.lineWidth = 1;
  pen.beginPath();
  for (const t of momentTicks(stretch.from_s, stretch.to_s, width)) {
    const x = Math.round(((t - stretch.from_s) / (stretch.to_s - stretch.from_s)) * width) + 0.5;
    pen.moveTo(x, 0);
    pen.lineTo(x, height);
  }
  for (const v of ticks) {
    const at = Math.round(y(v)) + 0.5;
    pen.moveTo(0, at);
    pen.lineTo(width, at);
  }
  pen.stroke();
}

function drawAxis(
  axis: SVGSVGElement,
  y: ScaleLinear<number, number>,
  ticks: readonly number[],
  unit: string,
): void {
  select(axis)
    .selectAll<SVGGElement, null>('g')
    .data([null])
    .join('g')
    .attr('transform', `translate(${gutter},0)`)
    .call(
      axisLeft<number>(y)
        .tickValues(ticks)
        .tickSize(0)
        .tickPadding(6)
        .tickFormat((v) => axisText(v, unit, ticks)),
    );
}
