/** How a wake is drawn where two are compared. */
import type { Frame } from '../frame.ts';
import { fillBand, strokeEdge, strokeTrace } from '../paint.ts';
import type { Band } from '../series.ts';
import { ink } from '../theme.ts';

/** One quantity as a line, a group as its two edges. */
export function strokeWake(frame: Frame, series: Band, unit: string): void {
  if (unit === 'W') {
    strokeTrace(frame, series, { tint: 'copper', width: 1.6 });
    return;
  }
  fillBand(frame, series, ink('copper'), 0.16);
  strokeEdge(frame, series, 'low', { tint: 'copper', width: 1.6 });
  strokeEdge(frame, series, 'high', { tint: 'copper', width: 1.2 });
}
