/** Names of what a picture shows, each with the mark that repeats how it is drawn, in as many lines as they need. */
import type { Row } from '../panels/read-out.ts';
import type { Pen } from '../pen/pen.ts';
import { hatch, ink } from '../theme.ts';

const line_px = 17;
const mark_px = 24;
/** Between a mark and its name, between a name and the next mark [px]. */
const gap_px = 6;
const apart_px = 20;

const dashes: Readonly<Record<string, readonly number[]>> = {
  dashed: [7, 3],
  dotted: [2, 2.5],
  dashdot: [8, 3, 2, 3],
};

/** Returns the height it took [px]. */
export function drawLegend(pen: Pen, rows: readonly Row[], width: number): number {
  pen.font = '11.5px system-ui, sans-serif';
  pen.textBaseline = 'middle';
  let [x, y] = [0, line_px / 2 + 4];
  for (const row of rows) {
    const words = row.value === '' ? row.name : `${row.name}: ${row.value}`;
    const mark = row.mark === 'none' ? 0 : mark_px + gap_px;
    const own = mark + pen.measureText(words).width;
    if (x > 0 && x + own > width) [x, y] = [0, y + line_px];
    drawMark(pen, row, x, y);
    pen.fillStyle = ink('ink');
    pen.fillText(words, x + mark, y);
    x += own + apart_px;
  }
  return rows.length === 0 ? 0 : y + line_px / 2;
}

function drawMark(pen: Pen, { mark, tint }: Row, x: number, y: number): void {
  if (mark === 'none') return;
  pen.save();
  pen.strokeStyle = ink(tint);
  if (mark === 'box' || mark === 'rising' || mark === 'falling' || mark === 'dots') {
    pen.fillStyle = hatch(pen, tint, mark === 'box' ? 'plain' : mark);
    pen.fillRect(x, y - 6, mark_px, 12);
  } else {
    pen.lineWidth = mark === 'thin' ? 1 : 2;
    pen.setLineDash([...(dashes[mark] ?? [])]);
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(x + mark_px, y);
    pen.stroke();
  }
  pen.restore();
}
