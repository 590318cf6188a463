/** Limits as dashed lines, drawn only where they apply; each has its words once, whole and clear of the others. */
import type { Span } from '../../src/events/spans.ts';
import type { Frame } from '../plot.ts';
import { ink } from '../theme.ts';
import { gap_px, line_px, placeWords } from './word-place.ts';

export interface LimitLine {
  readonly value: number;
  /** Empty where the words stand at another line. */
  readonly words: string;
  readonly side: 'lower' | 'upper';
  /** Where it applies. */
  readonly spans: readonly Span[];
}

const font = '11px system-ui, sans-serif';

export function drawLimits(frame: Frame, lines: readonly LimitLine[]): void {
  const { pen, y, height, width, words: taken } = frame;
  pen.save();
  pen.font = font;
  pen.textBaseline = 'top';
  pen.strokeStyle = ink('fail');
  pen.setLineDash([6, 4]);
  for (const { value, words, side, spans } of lines) {
    const at = Math.round(y(value)) + 0.5;
    if (at < 0 || at > height) continue;
    const pieces = inSight(frame, spans);
    const last = pieces.at(-1);
    if (last === undefined) continue;
    pen.beginPath();
    for (const [left, right] of pieces) {
      pen.moveTo(left, at);
      pen.lineTo(right, at);
    }
    pen.stroke();
    if (words === '') continue;
    const own = pen.measureText(words).width;
    // Words of a stretch that ends near the left edge stand right of its end.
    const right = Math.min(width - gap_px, Math.max(last[1] - gap_px, own + gap_px));
    const box = placeWords(own, right, at, side, height, taken);
    if (box === null) continue;
    taken.push(box);
    pen.globalAlpha = 0.85;
    pen.fillStyle = ink('panel');
    pen.fillRect(box.left - 3, box.top, own + 6, line_px - 1);
    pen.globalAlpha = 1;
    pen.fillStyle = ink('fail');
    pen.fillText(words, box.left, box.top + 1);
  }
  pen.restore();
}

/** The visible parts of the stretches, in pixels. */
function inSight({ stretch, width }: Frame, spans: readonly Span[]): [number, number][] {
  const scale = width / (stretch.to_s - stretch.from_s);
  return spans.flatMap(({ from_s, to_s }): [number, number][] => {
    const left = Math.max(0, (from_s - stretch.from_s) * scale);
    const right = Math.min(width, (to_s - stretch.from_s) * scale);
    return right > left ? [[left, right]] : [];
  });
}
