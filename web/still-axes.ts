/** What plots share that do not follow the lens: lines across at the ticks, and axes at the left and at the foot. */
import { axisBottom, axisLeft, type ScaleContinuousNumeric, select } from 'd3';
import type { Pen } from './pen/pen.ts';
import { axisText, gutter } from './sheet.ts';
import { ink } from './theme.ts';

export type Scale = ScaleContinuousNumeric<number, number>;

interface Axis {
  readonly scale: Scale;
  readonly ticks: readonly number[];
}

/** Lines over the whole width at the ticks of the values. */
export function drawAcross(pen: Pen, { scale, ticks }: Axis, width: number): void {
  pen.strokeStyle = ink('line');
  pen.beginPath();
  for (const v of ticks) {
    pen.moveTo(0, Math.round(scale(v)) + 0.5);
    pen.lineTo(width, Math.round(scale(v)) + 0.5);
  }
  pen.stroke();
}

/** Values at the left in their unit; at the foot, so far below the origin of `host`, what they are over, in its own words. */
export function drawStillAxes(
  host: SVGElement,
  left: Axis & { readonly unit: string },
  foot: Axis & { readonly top: number; readonly words: (value: number) => string },
): void {
  const frame = select(host);
  frame
    .selectAll<SVGGElement, null>('g.left')
    .data([null])
    .join('g')
    .attr('class', 'left')
    .attr('transform', `translate(${gutter},0)`)
    .call(
      axisLeft<number>(left.scale)
        .tickValues(left.ticks)
        .tickSize(0)
        .tickPadding(8)
        .tickFormat((v) => axisText(v, left.unit, left.ticks)),
    );
  frame
    .selectAll<SVGGElement, null>('g.foot')
    .data([null])
    .join('g')
    .attr('class', 'foot')
    .attr('transform', `translate(${gutter},${foot.top})`)
    .call(axisBottom<number>(foot.scale).tickValues(foot.ticks).tickSize(5).tickFormat(foot.words));
}
