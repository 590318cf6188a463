/** Draws a time panel with any pen: grid, time that is not judged, what the panel shows, its pins; and its two axes. */
import { axisBottom, axisLeft, type ScaleLinear, scaleLinear, select } from 'd3';
import type { Frame } from '../frame.ts';
import type { Record } from '../record.ts';
import { axisText, gutter, momentTicks } from '../sheet.ts';
import { ink } from '../theme.ts';
import { type PanelSpec, rangeOf } from './panel-spec.ts';
import { drawPins } from './pins.ts';
import { drawShades } from './shade.ts';

export interface ValueAxis {
  readonly y: ScaleLinear<number, number>;
  readonly ticks: readonly number[];
}

export function valueAxis(range: readonly [number, number], height: number): ValueAxis {
  const y = scaleLinear(range, [height - 4, 8]);
  return { y, ticks: y.ticks(Math.max(3, height / 40)) };
}

export function drawPanel(
  frame: Frame,
  ticks: readonly number[],
  spec: PanelSpec,
  record: Pick<Record, 'bucketAt'>,
): void {
  drawGrid(frame, ticks);
  drawShades(frame, spec.shades, (from_s, to_s) =>
    rangeOf(spec, record.bucketAt(from_s), record.bucketAt(to_s)),
  );
  spec.draw(frame);
  const { pinned } = spec;
  if (spec.pins !== undefined && pinned !== undefined)
    drawPins(frame, spec.pins, (pin) => pinned(pin, record.bucketAt(pin.time_s)));
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

/** Along the left edge of the plot, in the gutter. */
export function drawValueAxis(host: SVGElement, { y, ticks }: ValueAxis, unit: string): void {
  select(host)
    .selectAll<SVGGElement, null>('g.value')
    .data([null])
    .join('g')
    .attr('class', 'value')
    .attr('transform', `translate(${gutter},0)`)
    .call(
      axisLeft<number>(y)
        .tickValues(ticks)
        .tickSize(0)
        .tickPadding(6)
        .tickFormat((v) => axisText(v, unit, ticks)),
    );
}

/** Moments from `from_s` to `to_s` over a plot `width` pixels wide, `top` pixels below the origin of `host`. */
export function drawTimeAxis(
  host: SVGElement,
  { from_s, to_s }: { readonly from_s: number; readonly to_s: number },
  width: number,
  top: number,
): void {
  const x = scaleLinear([from_s, to_s], [0, width]);
  const ticks = momentTicks(from_s, to_s, width);
  select(host)
    .selectAll<SVGGElement, null>('g.time')
    .data([null])
    .join('g')
    .attr('class', 'time')
    .attr('transform', `translate(${gutter},${top})`)
    .call(
      axisBottom<number>(x)
        .tickValues(ticks)
        .tickSize(4)
        .tickPadding(3)
        .tickFormat((t) => axisText(t, 's', ticks)),
    )
    // A label at an end would run into what stands beside.
    .selectAll<SVGTextElement, number>('text')
    .attr('text-anchor', (t) => (x(t) > width - 12 ? 'end' : x(t) < 12 ? 'start' : 'middle'));
}
