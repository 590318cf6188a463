/** Time that is not judged, hatched over the whole height of a panel, with words that say why. */

import type { Frame } from '../frame.ts';
import type { Shade } from '../judged-time.ts';
import type { Pen } from '../pen/pen.ts';
import { hatch, ink } from '../theme.ts';

const font = '11px system-ui, sans-serif';

/** A line of words with its ground [px]. */
const line_px = 17;

/** `reach` says between which values lies what the panel draws from one moment to another: words stand clear of it. */
export function drawShades(
  frame: Frame,
  shades: readonly Shade[],
  reach: (from_s: number, to_s: number) => readonly [number, number],
): void {
  const { pen, width, height, stretch, y } = frame;
  const scale = width / (stretch.to_s - stretch.from_s);
  pen.save();
  pen.font = font;
  pen.textBaseline = 'bottom';
  for (const { from_s, to_s, words, partly } of shades) {
    const left = Math.max(0, (from_s - stretch.from_s) * scale);
    const right = Math.min(width, (to_s - stretch.from_s) * scale);
    if (right <= left) continue;
    pen.globalAlpha = partly ? 0.25 : 0.55;
    pen.fillStyle = hatch(pen, 'faint', 'rising');
    pen.fillRect(left, 0, Math.max(1, right - left), height);
    pen.globalAlpha = 1;
    pen.fillStyle = ink('faint');
    if (left > 0) pen.fillRect(left, 0, 1, height);
    if (right < width) pen.fillRect(right, 0, 1, height);
    const fitting = fullest(pen, words, right - left);
    if (fitting === null) continue;
    const [low, high] = reach(
      stretch.from_s + (left + 4) / scale,
      stretch.from_s + (left + fitting.width) / scale,
    );
    const atTop = y(low) > height - line_px && y(high) > line_px;
    writeWords(pen, fitting, left, atTop ? line_px : height);
  }
  pen.restore();
}

export interface Fitting {
  readonly text: string;
  /** With its ground [px]. */
  readonly width: number;
}

/** The first, and so the fullest, for which there is room; null for none. */
export function fullest(pen: Pen, words: readonly string[], room: number): Fitting | null {
  for (const text of words) {
    const width = pen.measureText(text).width + 8;
    if (width <= room) return { text, width };
  }
  return null;
}

/** On a ground of their own, `bottom` pixels down. */
export function writeWords(pen: Pen, { text, width }: Fitting, left: number, bottom: number): void {
  pen.fillStyle = ink('panel');
  pen.fillRect(left + 3, bottom - line_px, width - 2, line_px - 3);
  pen.fillStyle = ink('muted');
  pen.fillText(text, left + 6, bottom - 4);
}
