/** Boxes for shelves, trays and batteries, plates for banks, lying boxes for sleds. */
import { svg } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';
import type { Layout, UnitPlace } from './layout.ts';
import type { Piece } from './piece.ts';
import type { Face } from './units.ts';

const boxHeight = 46;

export function unitPiece(
  drawing: SVGSVGElement,
  place: UnitPlace,
  face: Face,
  layout: Layout,
  record: Record,
): Piece {
  const made = place.side === 0 ? sledShape(place, layout) : unitShape(place, face, layout);
  drawing.append(made.target);
  const voltage = `${place.node}.voltage_V`;
  made.target.setAttribute('aria-label', face.name);
  return {
    id: place.id,
    target: made.target,
    update(bucket) {
      const fill = face.fill(bucket);
      made.setFill(Number.isNaN(fill) ? 0 : Math.min(1, Math.max(0, fill)));
      made.setGives(face.gives(bucket));
      made.short.textContent = face.short(bucket);
    },
    words: (bucket) => `${face.words(bucket)}; bus here ${withUnit(record.mean(voltage, bucket), 'V')}`,
  };
}

interface Shape {
  readonly target: SVGGElement;
  readonly short: SVGTextElement;
  setFill(ratio: number): void;
  setGives(value: number): void;
}

function unitShape({ id, at, side }: UnitPlace, face: Face, { box, isCrowded }: Layout): Shape {
  const stem = 22;
  const near = at.y + side * stem;
  const top = side < 0 ? near - boxHeight : near;
  const left = at.x - box / 2;
  const level = svg('rect', { x: left, width: box, class: 'level' });
  const arrow = svg('path', { class: 'gives' });
  const beyond = side < 0 ? top - 6 : top + boxHeight + (isCrowded ? 6 : 14);
  const short = isCrowded
    ? svg('text', {
        class: side < 0 ? 'short rising' : 'short rising end',
        transform: `translate(${at.x + 4},${beyond}) rotate(-90)`,
      })
    : svg('text', { x: at.x, y: beyond, class: 'short' });
  const target = svg('g', { class: `unit ${face.kind}`, role: 'img' });
  target.append(
    svg('path', { d: `M${at.x},${at.y}V${near}`, class: 'stem' }),
    svg('circle', { cx: at.x, cy: at.y, r: 2.5, class: 'joint' }),
  );
  if (face.kind === 'bank') {
    const middle = top + boxHeight / 2;
    const a = side < 0 ? near : top;
    target.append(
      svg('rect', { x: left, y: top, width: box, height: boxHeight, class: 'hit' }),
      svg('path', {
        d: `M${at.x},${a}V${middle - side * 4}M${at.x - 16},${middle - side * 4}h32M${at.x - 16},${middle + side * 4}h32`,
        class: 'plates',
      }),
      svg('text', { x: at.x, y: middle + side * 10, class: side < 0 ? 'name' : 'name under' }, id),
    );
  } else {
    target.append(
      svg('rect', { x: left, y: top, width: box, height: boxHeight, rx: 3, class: 'case' }),
      level,
      svg('rect', { x: left, y: top, width: box, height: boxHeight, rx: 3, class: 'rim' }),
      svg('text', { x: at.x, y: top + boxHeight / 2 + 4, class: 'name' }, id),
    );
    if (face.kind === 'battery')
      target.append(svg('rect', { x: at.x - 7, y: top - 4, width: 14, height: 4, class: 'terminal' }));
  }
  target.append(arrow, short);
  const middle = at.y + (side * stem) / 2;
  return {
    target,
    short,
    setFill(ratio) {
      level.setAttribute('y', (top + boxHeight * (1 - ratio)).toFixed(2));
      level.setAttribute('height', (boxHeight * ratio).toFixed(2));
    },
    setGives(value) {
      // Towards the bar when it gives, towards the unit when it takes.
      const down = value > 0 === side < 0 ? 1 : -1;
      arrow.setAttribute(
        'd',
        value === 0 || Number.isNaN(value)
          ? ''
          : `M${at.x - 5},${middle - 3 * down}L${at.x},${middle + 3 * down}L${at.x + 5},${middle - 3 * down}`,
      );
    },
  };
}

function sledShape({ id, at }: UnitPlace, { rowHeight }: Layout): Shape {
  const height = rowHeight - 7;
  const right = at.x - 18;
  const width = 70;
  const level = svg('rect', { y: at.y - height / 2, height, class: 'level' });
  const short = svg('text', { x: right - width - 6, y: at.y + 4, class: 'short', 'text-anchor': 'end' });
  const target = svg(
    'g',
    { class: 'unit sled', role: 'img' },
    svg('path', { d: `M${at.x},${at.y}H${right}`, class: 'stem' }),
    svg('rect', { x: right - width, y: at.y - height / 2, width, height, rx: 2, class: 'case' }),
    level,
    svg('rect', { x: right - width, y: at.y - height / 2, width, height, rx: 2, class: 'rim' }),
    svg('text', { x: right - width / 2, y: at.y + 4, class: 'name' }, id),
    short,
  );
  return {
    target,
    short,
    setFill(ratio) {
      level.setAttribute('x', (right - width * ratio).toFixed(2));
      level.setAttribute('width', (width * ratio).toFixed(2));
    },
    setGives() {},
  };
}
