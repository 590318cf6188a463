/** Draws a duration envelope with any pen: grid, what the limits forbid, the longest stays as stairs; and its two axes. */
import { scaleLinear, scaleLog } from 'd3';
import type { EnvelopeColumn, Forbidden, Stay } from './envelope-columns.ts';
import { duration } from './numbers.ts';
import type { Pen } from './pen/pen.ts';
import { roomy } from './sheet.ts';
import { drawAcross, drawStillAxes, type Scale } from './still-axes.ts';
import { type Ink, ink } from './theme.ts';

export const height_px = 240;
const foot_px = 26;
const top_px = 6;
const shortest_s = 20e-6;

/** Stays as long as half as much again as the judged window have room, from `range` volts. */
export function envelopeScales(
  range: readonly [number, number],
  window_s: number,
  width: number,
): { readonly x: Scale; readonly y: Scale } {
  const longest_s = Math.max(2, 1.5 * window_s);
  return {
    x: scaleLog([shortest_s, longest_s], [0, width]).clamp(true),
    y: scaleLinear(range, [height_px - foot_px, top_px]),
  };
}

export function drawEnvelope(
  pen: Pen,
  { below, above, forbidden }: EnvelopeColumn,
  x: Scale,
  y: Scale,
): void {
  const width = x.range()[1]!;
  drawAcross(pen, { scale: y, ticks: y.ticks(7) }, width);
  drawForbidden(pen, forbidden, x, y, width);
  stairs(pen, below, x, y, 'ink');
  stairs(pen, above, x, y, 'muted');
}

export function drawEnvelopeAxes(host: SVGElement, x: Scale, y: Scale): void {
  const longest_s = x.domain()[1]!;
  const decades = [1e-4, 1e-3, 1e-2, 0.1, 1, 10, 100, 1000].filter((t) => t < longest_s);
  drawStillAxes(
    host,
    { scale: y, ticks: y.ticks(7), unit: 'V' },
    { scale: x, ticks: roomy(decades, x, 48), top: height_px - foot_px, words: duration },
  );
}

/** What lies beyond a limit for longer than it allows: hatched, with the corner drawn. */
function drawForbidden(pen: Pen, forbidden: readonly Forbidden[], x: Scale, y: Scale, width: number): void {
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
function stairs(pen: Pen, stays: readonly Stay[], x: Scale, y: Scale, tint: Ink): void {
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
