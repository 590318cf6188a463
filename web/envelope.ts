/**
 * The duration envelope of the bus: for every voltage level the longest single stay of any node beyond it, against the
 * stays that the limits forbid. Time in which batteries carry has limits of its own and so a drawing of its own.
 */
import { axisBottom, axisLeft, type ScaleContinuousNumeric, scaleLinear, scaleLog, select } from 'd3';
import type { Bundle } from '../src/bundle/format.ts';
import { html, svg } from './dom.ts';
import { type EnvelopeColumn, envelopeColumns, type Forbidden, type Stay } from './envelope-columns.ts';
import type { Lens } from './lens.ts';
import { duration, withUnit } from './numbers.ts';
import { axisText, gutter, roomy, size } from './sheet.ts';
import { type Ink, ink } from './theme.ts';
import { watchWidth } from './width.ts';

const height_px = 240;
const foot_px = 26;
const top_px = 6;
const right_px = 22;
const shortest_s = 20e-6;

type Scale = ScaleContinuousNumeric<number, number>;

export function showEnvelope(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  const columns = envelopeColumns(bundle);
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'Bus voltage against duration'),
      html('p', {}, 'longest single stay of any node beyond a level; hatched: beyond the limits'),
    ),
  );
  const { levels_V } = bundle.result.stays;
  if (levels_V.length === 0) return;
  const window_s = bundle.result.window.to_s - bundle.result.window.from_s;
  const values = [
    ...levels_V,
    ...columns.flatMap(({ forbidden }) => forbidden.map(({ limit_V }) => limit_V)),
  ];
  const range = [Math.min(...values) - 0.6, Math.max(...values) + 0.6] as const;
  for (const column of columns) {
    const canvas = html('canvas', { 'aria-hidden': 'true' });
    const axes = svg('svg', { class: 'axis', height: height_px, 'aria-hidden': 'true' });
    const label = `${column.title}: ${worst(column.below)}`;
    const plot = html(
      'div',
      { class: 'plot still', role: 'img', 'aria-label': label, style: `height:${height_px}px` },
      canvas,
      axes,
    );
    const title = columns.length > 1 ? html('h4', {}, column.title) : null;
    host.append(
      html('div', { class: 'column' }, title, plot, html('p', { class: 'worst note' }, worst(column.below))),
    );
    let width = 0;
    const draw = (): void => {
      const longest_s = Math.max(2, 1.5 * window_s);
      const x = scaleLog([shortest_s, longest_s], [0, width]).clamp(true);
      const y = scaleLinear(range, [height_px - foot_px, top_px]);
      drawColumn(canvas, column, x, y, width);
      drawAxes(axes, x, y, width);
    };
    watchWidth(plot, (outer) => {
      width = Math.max(50, outer - gutter - right_px);
      draw();
    });
    lens.watch(({ look }) => {
      if (look && width > 0) draw();
    });
  }
}

function drawColumn(
  canvas: HTMLCanvasElement,
  { below, above, forbidden }: EnvelopeColumn,
  x: Scale,
  y: Scale,
  width: number,
): void {
  size(canvas, width, height_px);
  const pen = canvas.getContext('2d')!;
  pen.clearRect(0, 0, width, height_px);
  pen.strokeStyle = ink('line');
  pen.beginPath();
  for (const v of y.ticks(7)) {
    pen.moveTo(0, Math.round(y(v)) + 0.5);
    pen.lineTo(width, Math.round(y(v)) + 0.5);
  }
  pen.stroke();
  drawForbidden(pen, forbidden, x, y, width);
  stairs(pen, below, x, y, 'ink');
  stairs(pen, above, x, y, 'muted');
}

function drawAxes(axes: SVGSVGElement, x: Scale, y: Scale, width: number): void {
  const ticks = y.ticks(7);
  const longest_s = x.domain()[1]!;
  const frame = select(axes).attr('width', gutter + width + right_px);
  frame
    .selectAll<SVGGElement, null>('g.left')
    .data([null])
    .join('g')
    .attr('class', 'left')
    .attr('transform', `translate(${gutter},0)`)
    .call(
      axisLeft<number>(y)
        .tickValues(ticks)
        .tickSize(0)
        .tickPadding(8)
        .tickFormat((v) => axisText(v, 'V', ticks)),
    );
  frame
    .selectAll<SVGGElement, null>('g.foot')
    .data([null])
    .join('g')
    .attr('class', 'foot')
    .attr('transform', `translate(${gutter},${height_px - foot_px})`)
    .call(
      axisBottom<number>(x)
        .tickValues(
          roomy(
            [1e-4, 1e-3, 1e-2, 0.1, 1, 10, 100, 1000].filter((t) => t < longest_s),
            x,
            48,
          ),
        )
        .tickSize(5)
        .tickFormat(duration),
    );
}

/** What lies beyond a limit for longer than it allows: hatched, with the corner drawn. */
function drawForbidden(
  pen: CanvasRenderingContext2D,
  forbidden: readonly Forbidden[],
  x: Scale,
  y: Scale,
  width: number,
): void {
  const bottom = height_px - foot_px;
  pen.save();
  pen.beginPath();
  for (const { limit_V, stay_s, side } of forbidden) {
    const left = stay_s <= shortest_s ? 0 : x(stay_s);
    const [from, to] = side === 'lower' ? [y(limit_V), bottom] : [top_px, y(limit_V)];
    pen.rect(left, from, width - left, to - from);
  }
  pen.clip();
  pen.strokeStyle = ink('fail');
  pen.globalAlpha = 0.28;
  pen.lineWidth = 1;
  pen.beginPath();
  for (let k = -height_px; k < width; k += 7) {
    pen.moveTo(k, height_px);
    pen.lineTo(k + height_px, 0);
  }
  pen.stroke();
  pen.restore();
  pen.save();
  pen.strokeStyle = ink('fail');
  pen.setLineDash([6, 4]);
  for (const side of ['lower', 'upper'] as const) {
    const corners = forbidden.filter((corner) => corner.side === side).sort((a, b) => a.stay_s - b.stay_s);
    pen.beginPath();
    corners.forEach(({ limit_V, stay_s }, k) => {
      const next = corners[k + 1];
      pen.lineTo(k === 0 ? 0 : x(Math.max(shortest_s, stay_s)), y(limit_V));
      pen.lineTo(next === undefined ? width : x(next.stay_s), y(limit_V));
    });
    pen.stroke();
  }
  pen.restore();
}

/** A level is left of the line exactly when no node stays beyond it for longer. */
function stairs(pen: CanvasRenderingContext2D, stays: readonly Stay[], x: Scale, y: Scale, tint: Ink): void {
  pen.save();
  pen.strokeStyle = ink(tint);
  pen.fillStyle = ink(tint);
  pen.lineWidth = 1.8;
  pen.beginPath();
  for (const { level_V, longest_s } of stays) pen.lineTo(x(Math.max(shortest_s, longest_s)), y(level_V));
  pen.stroke();
  for (const { level_V, longest_s } of stays) {
    pen.beginPath();
    pen.arc(x(Math.max(shortest_s, longest_s)), y(level_V), 3, 0, 7);
    pen.fill();
  }
  pen.restore();
}

/** The lowest level that any node reached, in words. */
function worst(below: readonly Stay[]): string {
  const lowest = below[0];
  if (lowest === undefined) return 'No node went below a level that is counted.';
  return `Lowest level reached: ${lowest.node} stays below ${withUnit(lowest.level_V, 'V')} for ${duration(Number(lowest.longest_s.toPrecision(3)))} at the longest.`;
}
