/** Drawing kept to stretches of time. */
import type { Span } from '../../src/events/spans.ts';
import type { Frame } from '../frame.ts';

/** Runs `draw` so that only what lies in the stretches is drawn. */
export function within(frame: Frame, spans: readonly Span[], draw: () => void): void {
  const { pen, stretch, width, height } = frame;
  const scale = width / (stretch.to_s - stretch.from_s);
  pen.save();
  pen.beginPath();
  for (const { from_s, to_s } of spans) {
    const left = Math.max(-1, (from_s - stretch.from_s) * scale);
    const right = Math.min(width + 1, (to_s - stretch.from_s) * scale);
    if (right > left) pen.rect(left, 0, right - left, height);
  }
  pen.clip();
  draw();
  pen.restore();
}
