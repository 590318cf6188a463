/** The cabinet in copper at the cursor's moment: bars as wide as their current, units in their places. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html, svg } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { moment, withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';
import { type BarPlace, type Layout, layOut, type Point, type UnitPlace } from './layout.ts';
import { type Face, facesOf } from './units.ts';

/** Width of the bar that carries the largest current of the run [px]. */
const widest_px = 20;
const boxHeight = 46;

interface Piece {
  /** Brings the piece to a bucket. */
  readonly update: (bucket: number) => void;
  /** What hover and focus say. */
  readonly words: (bucket: number) => string;
  readonly target: SVGElement;
}

export function showCabinet(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const { scenario } = bundle;
  const faces = facesOf(scenario, record);
  const bars = record.ofKind('bar-current');
  let largest_A = 1;
  for (const { id } of bars) {
    const { min, max } = record.series(id)!;
    for (let b = 0; b < record.bucketCount; b += 1) largest_A = Math.max(largest_A, max[b]!, -min[b]!);
  }
  const words = html('output', { class: 'words', 'aria-live': 'polite' });
  const when = html('strong');
  const stage = html('div', { class: 'stage', 'data-own-keys': true });
  const key = `a bar as wide as this carries ${withUnit(nice(largest_A / 2), 'A')}`;
  const keyBar = html('span', {
    class: 'key-bar',
    style: `height:${((widest_px * nice(largest_A / 2)) / largest_A).toFixed(1)}px`,
  });
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'The cabinet at ', when),
      html(
        'p',
        {},
        'bars as wide as their current, arrows where it flows; point at a piece, or tab in and use the arrow keys',
      ),
      html('div', { class: 'controls key' }, keyBar, key),
    ),
    stage,
    words,
  );
  let pieces: readonly Piece[] = [];
  let focused: Piece | null = null;
  let drawnWidth = 0;

  const say = (piece: Piece | null): void => {
    focused = piece;
    words.textContent =
      piece === null
        ? 'Point at a bar or a unit for its figures.'
        : piece.words(record.bucketAt(lens.cursor_s));
    for (const other of pieces) other.target.classList.toggle('chosen', other === piece);
  };
  const build = (): void => {
    drawnWidth = stage.clientWidth;
    const layout = layOut(scenario, Math.max(640, drawnWidth));
    const drawing = svg('svg', {
      width: layout.width,
      height: layout.height,
      role: 'group',
      'aria-label': 'the cabinet',
    });
    const made: Piece[] = [];
    for (const bar of layout.bars) made.push(barPiece(drawing, bar, record, largest_A));
    for (const at of [...layout.units, ...layout.sleds]) {
      const face = faces.get(at.id);
      if (face !== undefined) made.push(unitPiece(drawing, at, face, layout, record));
    }
    for (const { x, y, text } of layout.sectionLabels)
      drawing.append(svg('text', { x, y, class: 'section-label' }, text));
    drawing.append(
      svg(
        'text',
        {
          x: layout.rackX,
          y: layout.bars.length > 0 ? 100 : 0,
          class: 'section-label',
          'text-anchor': 'middle',
        },
        'rack bar',
      ),
    );
    stage.replaceChildren(drawing);
    pieces = made;
    pieces.forEach((piece, k) => {
      piece.target.setAttribute('tabindex', k === 0 ? '0' : '-1');
      piece.target.addEventListener('pointerenter', () => say(piece));
      piece.target.addEventListener('focus', () => say(piece));
    });
    say(null);
  };
  stage.addEventListener('keydown', (event) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (by === undefined || pieces.length === 0) return;
    event.preventDefault();
    const now = focused === null ? 0 : pieces.indexOf(focused);
    const next = pieces[(now + by + pieces.length) % pieces.length]!;
    pieces[now]?.target.setAttribute('tabindex', '-1');
    next.target.setAttribute('tabindex', '0');
    (next.target as SVGGElement).focus();
  });
  lens.watch(() => {
    if (stage.clientWidth !== drawnWidth) build();
    const bucket = record.bucketAt(lens.cursor_s);
    when.textContent = moment(lens.cursor_s, lens.to_s - lens.from_s);
    for (const piece of pieces) piece.update(bucket);
    if (focused !== null) words.textContent = focused.words(bucket);
  });
}

/** A round number not above x. */
function nice(x: number): number {
  const ten = 10 ** Math.floor(Math.log10(Math.max(1, x)));
  return [5, 2, 1].find((m) => m * ten <= x)! * ten;
}

function barPiece(drawing: SVGSVGElement, bar: BarPlace, record: Record, largest_A: number): Piece {
  const d = bar.path.map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x},${y}`).join('');
  const copper = svg('path', { d, class: 'copper' });
  const arrow = svg('path', { class: 'flow' });
  const target = svg(
    'g',
    { class: 'bar', role: 'img' },
    svg('path', { d, class: 'reach' }),
    svg('path', { d, class: bar.closed ? 'bed' : 'bed open' }),
    copper,
    arrow,
  );
  drawing.append(target);
  const { middle, angle } = middleOf(bar.path);
  const id = `${bar.id}.current_A`;
  return {
    target,
    update(bucket) {
      const current = record.middle(id, bucket);
      const width = Number.isNaN(current) ? 0 : (widest_px * Math.abs(current)) / largest_A;
      copper.setAttribute('stroke-width', width.toFixed(2));
      const size = Math.min(7, 2.5 + width / 3);
      const turn = current < 0 ? angle + 180 : angle;
      arrow.setAttribute('d', width < 0.35 ? '' : `M${-size},${-size}L${size},0L${-size},${size}`);
      arrow.setAttribute('transform', `translate(${middle.x},${middle.y}) rotate(${turn})`);
    },
    words: (bucket) => {
      const current = record.middle(id, bucket);
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

function unitPiece(
  drawing: SVGSVGElement,
  place: UnitPlace,
  face: Face,
  layout: Layout,
  record: Record,
): Piece {
  const made = place.side === 0 ? sledShape(place, layout) : unitShape(place, face, layout);
  drawing.append(made.target);
  const voltage = `${place.node}.voltage_V`;
  return {
    target: made.target,
    update(bucket) {
      const fill = face.fill(bucket);
      made.setFill(Number.isNaN(fill) ? 0 : Math.min(1, Math.max(0, fill)));
      made.setGives(face.gives(bucket));
      made.short.textContent = face.short(bucket);
    },
    words: (bucket) => `${face.words(bucket)}; bus here ${withUnit(record.middle(voltage, bucket), 'V')}`,
  };
}

interface Shape {
  readonly target: SVGGElement;
  readonly short: SVGTextElement;
  setFill(ratio: number): void;
  setGives(value: number): void;
}

function unitShape({ id, at, side }: UnitPlace, face: Face, { box }: Layout): Shape {
  const stem = 22;
  const near = at.y + side * stem;
  const top = side < 0 ? near - boxHeight : near;
  const left = at.x - box / 2;
  const level = svg('rect', { x: left, width: box, class: 'level' });
  const arrow = svg('path', { class: 'gives' });
  const short = svg('text', { x: at.x, y: side < 0 ? top - 6 : top + boxHeight + 14, class: 'short' });
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
      svg('text', { x: at.x, y: middle + (side < 0 ? -10 : 22), class: 'name' }, id),
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
