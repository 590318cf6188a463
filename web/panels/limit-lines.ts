/** Limits as dashed lines, drawn only where they apply; each has its words once, whole and clear of the others. */
import type { Span } from '../../src/events/spans.ts';
import type { Frame } from '../frame.ts';
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
  const visible = lines.flatMap((line) => {
    const at = Math.round(y(line.value)) + 0.5;
    const pieces = inSight(frame, line.spans);
    return at < 0 || at > height || pieces.length === 0 ? [] : [{ ...line, at, pieces }];
  });
  pen.beginPath();
  for (const { at, pieces } of visible) {
    for (const [left, right] of pieces) {
      pen.moveTo(left, at);
      pen.lineTo(right, at);
    }
  }
  pen.stroke();
  const heights = visible.map(({ at }) => at);
  // Words after all lines, so that none is struck through.
  for (const { words, side, at, pieces } of visible) {
    if (words === '') continue;
    const own = pen.measureText(words).width;
    // Words of a stretch that ends near the left edge stand right of its end.
    const right = Math.min(width - gap_px, Math.max(pieces.at(-1)![1] - gap_px, own + gap_px));
    const box = placeWords(own, right, at, side, height, taken, heights);
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
