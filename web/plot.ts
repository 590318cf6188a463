/** The frame every time panel stands in: canvas, value axis, grid, cursor, read-out; it follows the lens. */
import { axisLeft, type ScaleLinear, scaleLinear, select } from 'd3';
import { makeOutline, type Outline, type Stretch } from './columns.ts';
import { html, svg } from './dom.ts';
import { listenToPointer } from './gestures.ts';
import type { Lens } from './lens.ts';
import type { Record, Series } from './record.ts';
import { axisText, gutter, momentTicks, size } from './sheet.ts';
import { type Ink, ink } from './theme.ts';

/** What a panel draws on. */
export interface Frame {
  readonly pen: CanvasRenderingContext2D;
  readonly width: number;
  readonly height: number;
  readonly stretch: Stretch;
  readonly edges_s: Float64Array;
  /** Working space for one outline at a time. */
  readonly outline: Outline;
  readonly y: ScaleLinear<number, number>;
}

/** One line of a read-out: a mark that repeats how the thing is drawn, its name, its value at the cursor. */
export interface Row {
  readonly mark: string;
  readonly tint: Ink;
  readonly name: string;
  readonly value: string;
}

export interface PanelSpec {
  readonly id: string;
  readonly title: string;
  readonly note: string;
  readonly height: number;
  readonly unit: string;
  /** What the value axis must hold, and values it holds besides while it is not fitted to the view. */
  series(): readonly Series[];
  readonly include: readonly number[];
  /** Replaces the range of `series` where things are stacked. */
  readonly range?: (first: number, last: number) => readonly [number, number];
  draw(frame: Frame): void;
  rows(bucket: number): readonly Row[];
  readonly controls?: readonly HTMLElement[];
}

/** Puts a panel into `host` and keeps it drawn. Returns a function that draws it again after a choice. */
export function makePanel(host: HTMLElement, lens: Lens, record: Record, spec: PanelSpec): () => void {
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const axis = svg('svg', { class: 'axis', 'aria-hidden': 'true' });
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
  const readout = html('table', { class: 'readout' });
  const fit = html('button', { type: 'button', class: 'quiet', 'aria-pressed': 'false' }, 'fit values');
  const controls = html('div', { class: 'controls' }, ...(spec.controls ?? []), fit);
  host.append(
    html(
      'section',
      { class: 'panel', id: `panel-${spec.id}` },
      html('header', {}, html('h3', {}, spec.title), html('p', {}, spec.note), controls),
      html('div', { class: 'row' }, plot, readout),
    ),
  );
  const pen = canvas.getContext('2d')!;
  let frame: Frame | null = null;
  let fitted = false;
  let space = makeOutline(100);

  const draw = (): void => {
    const width = Math.max(50, plot.clientWidth - gutter);
    const stretch = stretchOf(lens, record, width);
    const y = scaleLinear(domain(spec, record, stretch, fitted), [spec.height - 4, 8]);
    if (space.x.length < 3 * width + 12) space = makeOutline(width);
    size(canvas, width, spec.height);
    frame = { pen, width, height: spec.height, stretch, edges_s: record.edges_s, outline: space, y };
    pen.clearRect(0, 0, width, spec.height);
    grid(frame);
    spec.draw(frame);
    drawAxis(axis, y, spec);
  };
  const follow = (): void => {
    const place = (lens.cursor_s - lens.from_s) / (lens.to_s - lens.from_s);
    const width = Math.max(50, plot.clientWidth - gutter);
    cursor.hidden = place < 0 || place > 1;
    cursor.style.transform = `translateX(${gutter + place * width}px)`;
    fillReadout(readout, spec.rows(record.bucketAt(lens.cursor_s)));
  };
  fit.addEventListener('click', () => {
    fitted = !fitted;
    fit.setAttribute('aria-pressed', String(fitted));
    draw();
  });
  listenToPointer(plot, rubber, lens);
  // A panel out of sight is drawn when it comes into sight; the first drawing is made wherever it stands.
  let [inSight, stale] = [true, false];
  const show = (): void => {
    draw();
    stale = false;
  };
  new IntersectionObserver(
    ([entry]) => {
      inSight = entry?.isIntersecting ?? true;
      if (!inSight || !stale) return;
      show();
      follow();
    },
    { rootMargin: '300px' },
  ).observe(plot);
  addEventListener('beforeprint', show);
  lens.watch(({ span }) => {
    if (!inSight && frame !== null) {
      stale = true;
      return;
    }
    if (span || frame === null) show();
    follow();
  });
  return () => {
    draw();
    follow();
  };
}

/** The buckets and pixels of the stretch shown. */
export function stretchOf(lens: Lens, record: Record, width: number): Stretch {
  const { from_s, to_s } = lens;
  return {
    from_s,
    to_s,
    width,
    firstBucket: record.bucketAt(from_s),
    lastBucket: record.bucketAt(to_s),
  };
}

function domain(spec: PanelSpec, record: Record, stretch: Stretch, fitted: boolean): [number, number] {
  const first = fitted ? stretch.firstBucket : 0;
  const last = fitted ? stretch.lastBucket : record.bucketCount - 1;
  let [low, high] = spec.range?.(first, last) ?? extentOf(spec.series(), first, last);
  if (!fitted) {
    for (const value of spec.include) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  if (!(high > low)) [low, high] = [low - 0.5, high + 0.5];
  const air = 0.04 * (high - low);
  return [low - air, high + air];
}

/** Smallest and largest value over a group in a range of buckets. */
export function extentOf(group: readonly Series[], first: number, last: number): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { min, max } of group) {
    for (let b = first; b <= last; b += 1) {
      if (min[b]! < low) low = min[b]!;
      if (max[b]! > high) high = max[b]!;
    }
  }
  return low <= high ? [low, high] : [0, 1];
}

function grid({ pen, width, height, stretch, y }: Frame): void {
  pen.strokeStyle = ink('line');
  pen.lineWidth = 1;
  pen.beginPath();
  for (const t of momentTicks(stretch.from_s, stretch.to_s, width)) {
    const x = Math.round(((t - stretch.from_s) / (stretch.to_s - stretch.from_s)) * width) + 0.5;
    pen.moveTo(x, 0);
    pen.lineTo(x, height);
  }
  for (const v of y.ticks(Math.max(2, height / 44))) {
    const at = Math.round(y(v)) + 0.5;
    pen.moveTo(0, at);
    pen.lineTo(width, at);
  }
  pen.stroke();
}

function drawAxis(axis: SVGSVGElement, y: ScaleLinear<number, number>, spec: PanelSpec): void {
  const ticks = y.ticks(Math.max(2, spec.height / 44));
  select(axis)
    .attr('width', gutter)
    .attr('height', spec.height)
    .selectAll<SVGGElement, null>('g')
    .data([null])
    .join('g')
    .attr('transform', `translate(${gutter},0)`)
    .call(
      axisLeft<number>(y)
        .tickValues(ticks)
        .tickSize(0)
        .tickPadding(8)
        .tickFormat((v) => axisText(v, spec.unit, ticks)),
    );
}

function fillReadout(table: HTMLTableElement, rows: readonly Row[]): void {
  while (table.rows.length > rows.length) table.deleteRow(-1);
  while (table.rows.length < rows.length) {
    const row = table.insertRow();
    row.append(html('td', {}, html('i', { class: 'mark' })), html('th', { scope: 'row' }), html('td', {}));
  }
  rows.forEach(({ mark, tint, name, value }, k) => {
    const [first, second, third] = table.rows[k]!.children;
    const sign = first!.firstElementChild as HTMLElement;
    if (sign.dataset['mark'] !== mark || sign.dataset['tint'] !== tint) {
      sign.dataset['mark'] = mark;
      sign.dataset['tint'] = tint;
      sign.style.setProperty('--tint', `var(--${tint})`);
    }
    if (second!.textContent !== name) second!.textContent = name;
    if (third!.textContent !== value) third!.textContent = value;
  });
}
