/** Time that is not judged, hatched over the whole height of a panel, with the one word that says why. */

import type { Frame } from '../frame.ts';
import type { Shade } from '../judged-time.ts';
import { hatch, ink } from '../theme.ts';

const font = '11px system-ui, sans-serif';

export function drawShades(frame: Frame, shades: readonly Shade[]): void {
  const { pen, width, height, stretch } = frame;
  const scale = width / (stretch.to_s - stretch.from_s);
  pen.save();
  pen.font = font;
  pen.textBaseline = 'bottom';
  for (const { from_s, to_s, word, partly } of shades) {
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
    const room = pen.measureText(word).width + 8;
    if (right - left < room) continue;
    pen.fillStyle = ink('panel');
    pen.fillRect(left + 3, height - 17, room - 2, 14);
    pen.fillStyle = ink('muted');
    pen.fillText(word, left + 6, height - 4);
  }
  pen.restore();
}
