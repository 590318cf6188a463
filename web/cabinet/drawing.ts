/** The drawing of the cabinet: every bar, unit and name in its place, each piece ready to follow a bucket. */
import type { Bundle } from '../../src/bundle/format.ts';
import { svg } from '../dom.ts';
import type { Record } from '../record.ts';
import { barPiece } from './bars.ts';
import { type Layout, layOut } from './layout.ts';
import type { Piece } from './piece.ts';
import { unitPiece } from './shapes.ts';
import { facesOf } from './units.ts';

export interface Drawing {
  readonly root: SVGSVGElement;
  readonly layout: Layout;
  readonly pieces: readonly Piece[];
}

/** Largest current of any bar in the run [A]: it is drawn at full width. */
export function largestCurrent(record: Record): number {
  let largest_A = 1;
  for (const { id } of record.ofKind('bar-current')) {
    const { min, max } = record.series(id)!;
    for (let b = 0; b < record.bucketCount; b += 1) largest_A = Math.max(largest_A, max[b]!, -min[b]!);
  }
  return largest_A;
}

/** For a drawing `width` pixels wide. */
export function drawCabinet(
  { scenario }: Pick<Bundle, 'scenario'>,
  record: Record,
  largest_A: number,
  width: number,
): Drawing {
  const layout = layOut(scenario, width);
  const faces = facesOf(scenario, record);
  const root = svg('svg', {
    width: layout.width,
    height: layout.height,
    class: layout.isCrowded ? 'crowded' : '',
  });
  const pieces: Piece[] = layout.bars.map((bar) => barPiece(root, bar, record, largest_A));
  for (const at of [...layout.units, ...layout.sleds]) {
    const face = faces.get(at.id);
    if (face !== undefined) pieces.push(unitPiece(root, at, face, layout, record));
  }
  for (const { x, y, text, isAtEnd } of layout.sectionLabels)
    root.append(svg('text', { x, y, class: isAtEnd ? 'section-label end' : 'section-label' }, text));
  const rack = { x: layout.rackX, y: layout.rackTop - 18, class: 'section-label', 'text-anchor': 'middle' };
  root.append(svg('text', rack, 'rack bar'));
  return { root, layout, pieces };
}
