/** A bar as wide as its current, with an arrow where it flows. */
import { svg } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';
import type { BarPlace, Point } from './layout.ts';
import type { Piece } from './piece.ts';

/** Width of the bar that carries the largest current of the run [px]. */
export const widest_px = 20;

export function barPiece(drawing: SVGSVGElement, bar: BarPlace, record: Record, largest_A: number): Piece {
  const d = bar.path.map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x},${y}`).join('');
  const copper = svg('path', { d, class: 'copper' });
  const arrow = svg('path', { class: 'flow' });
  const target = svg(
    'g',
    { class: 'bar', role: 'img', 'aria-label': `bar ${bar.id}` },
    svg('path', { d, class: 'reach' }),
    svg('path', { d, class: bar.closed ? 'bed' : 'bed open' }),
    copper,
    arrow,
  );
  drawing.append(target);
  const { middle, angle } = middleOf(bar.path);
  const id = `${bar.id}.current_A`;
  return {
    id: bar.id,
    target,
    update(bucket) {
      const current = record.mean(id, bucket);
      const width = Number.isNaN(current) ? 0 : (widest_px * Math.abs(current)) / largest_A;
      copper.setAttribute('stroke-width', width.toFixed(2));
      // Inside a wide bar the arrow is cut out of the copper; a thin one wears it.
      const inside = width >= 7;
      const size = inside ? Math.min(6, width / 3) : 4;
      arrow.classList.toggle('inside', inside);
      const turn = current < 0 ? angle + 180 : angle;
      arrow.setAttribute('d', width < 0.35 ? '' : `M${-size},${-size}L${size},0L${-size},${size}`);
      arrow.setAttribute('transform', `translate(${middle.x},${middle.y}) rotate(${turn})`);
    },
    words: (bucket) => {
      const current = record.mean(id, bucket);
      const state = bar.closed ? withUnit(Math.abs(current), 'A') : 'open';
      return `Bar ${bar.id}: ${state}`;
    },
  };
}

/** Middle of the longest stretch of a path and its direction. */
function middleOf(path: readonly Point[]): { readonly middle: Point; readonly angle: number } {
  let [best, length] = [1, -1];
  for (let k = 1; k < path.length; k += 1) {
    const own = Math.hypot(path[k]!.x - path[k - 1]!.x, path[k]!.y - path[k - 1]!.y);
    if (own > length) [best, length] = [k, own];
  }
  const [a, b] = [path[best - 1]!, path[best]!];
  return {
    middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
    angle: (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI,
  };
}
