/** Strokes and fills on a panel, each from one series and one pass over its outline. */
import { outline } from './columns.ts';
import type { Frame } from './frame.ts';
import type { Band } from './series.ts';
import { type Ink, ink } from './theme.ts';

export interface Style {
  readonly tint: Ink;
  readonly width?: number;
  readonly dash?: readonly number[];
}

/** Fills between smallest and largest value. */
export function fillBand(frame: Frame, series: Band, fill: string | CanvasPattern, alpha = 1): void {
  const { pen, outline: o, y } = frame;
  outline(o, frame.buckets, series, frame.stretch);
  pen.save();
  pen.globalAlpha = alpha;
  pen.fillStyle = fill;
  pen.beginPath();
  for (let k = 0; k < o.count; k += 1) pen.lineTo(o.x[k]!, y(o.high[k]!));
  for (let k = o.count - 1; k >= 0; k -= 1) pen.lineTo(o.x[k]!, y(o.low[k]!));
  pen.fill();
  pen.restore();
}

/** Longest slant that joins the flat stretch of a wide bucket to its neighbours [px]. */
const slant_px = 6;

/**
 * A line that touches smallest and largest value of every column. Where a bucket is wider than a pixel the
 * line runs through its middle and the reach of its values is shaded: what lies inside was not recorded.
 */
export function strokeTrace(frame: Frame, series: Band, style: Style): void {
  fillBand(frame, series, ink(style.tint), 0.22);
  strokePath(frame, series, style, (o, k, pen, y) => {
    if (o.wide[k] === 1) {
      const inset = Math.min(slant_px, (o.x[k + 1]! - o.x[k]!) / 2);
      pen.lineTo(o.x[k]! + inset, y(o.mean[k]!));
      pen.lineTo(o.x[k + 1]! - inset, y(o.mean[k]!));
    } else if (k === 0 || o.wide[k - 1] === 0) {
      pen.lineTo(o.x[k]!, y(o.low[k]!));
      if (o.high[k] !== o.low[k]) pen.lineTo(o.x[k]!, y(o.high[k]!));
    }
  });
}

/** One edge of the band only: the lowest or the highest value of every column. */
export function strokeEdge(frame: Frame, series: Band, edge: 'low' | 'high', style: Style): void {
  strokePath(frame, series, style, (o, k, pen, y) => pen.lineTo(o.x[k]!, y(o[edge][k]!)));
}

function strokePath(
  frame: Frame,
  series: Band,
  style: Style,
  step: (o: Frame['outline'], k: number, pen: Frame['pen'], y: Frame['y']) => void,
): void {
  const { pen, outline: o, y } = frame;
  outline(o, frame.buckets, series, frame.stretch);
  pen.save();
  pen.strokeStyle = ink(style.tint);
  pen.lineWidth = style.width ?? 1.5;
  pen.lineJoin = 'round';
  pen.setLineDash([...(style.dash ?? [])]);
  pen.beginPath();
  for (let k = 0; k < o.count; k += 1) step(o, k, pen, y);
  pen.stroke();
  pen.restore();
}

/** A level across the panel, with its words on it, `shift` from the right; nothing where it lies outside. */
export function level(
  frame: Frame,
  value: number,
  words: string,
  style: Style & { readonly below?: boolean; readonly shift?: number },
): void {
  const { pen, y, width, height } = frame;
  const at = y(value);
  if (at < 0 || at > height) return;
  pen.save();
  pen.strokeStyle = ink(style.tint);
  pen.fillStyle = ink(style.tint);
  pen.lineWidth = style.width ?? 1;
  pen.setLineDash([...(style.dash ?? [])]);
  pen.beginPath();
  pen.moveTo(0, at);
  pen.lineTo(width, at);
  pen.stroke();
  if (words === '') {
    pen.restore();
    return;
  }
  pen.font = '11px system-ui, sans-serif';
  pen.textAlign = 'right';
  // Words that would leave the panel stand on the other side of their line.
  const below = style.below === true ? at < height - 15 : at < 15;
  pen.textBaseline = below ? 'top' : 'bottom';
  const box = pen.measureText(words).width;
  const right = width - (style.shift ?? 0);
  pen.fillStyle = ink('panel');
  pen.globalAlpha = 0.8;
  pen.fillRect(right - box - 10, below ? at + 2 : at - 15, box + 8, 13);
  pen.globalAlpha = 1;
  pen.fillStyle = ink(style.tint);
  pen.fillText(words, right - 6, below ? at + 3 : at - 2);
  pen.restore();
}
