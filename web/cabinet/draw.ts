/** The cabinet in copper at the cursor's moment: bars as wide as their current, units in their places. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html, svg } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { moment, withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';
import { barPiece, widest_px } from './bars.ts';
import { layOut } from './layout.ts';
import type { Piece } from './piece.ts';
import { unitPiece } from './shapes.ts';
import { makeSums } from './sums.ts';
import { facesOf } from './units.ts';

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
  const sums = makeSums(record, bundle);
  const centre = html('div', { class: 'centre' }, sums.table, words);
  const stage = html('div', { class: 'stage', 'data-own-keys': true });
  const key = `this width is ${withUnit(nice(largest_A / 2), 'A')}`;
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
        'width of a bar: its current; arrows: where it flows; point at a piece, or press Tab and use the arrow keys',
      ),
      html('div', { class: 'controls key' }, keyBar, key),
    ),
    stage,
  );
  let pieces: readonly Piece[] = [];
  let focused: Piece | null = null;
  let drawnWidth = 0;
  let drawnBucket = -1;

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
    drawnBucket = -1;
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
          y: layout.rackTop - 18,
          class: 'section-label',
          'text-anchor': 'middle',
        },
        'rack bar',
      ),
    );
    const { left, right, top, bottom } = layout.middle;
    centre.style.cssText = `left:${left}px;width:${right - left}px;top:${top}px;height:${bottom - top}px`;
    stage.replaceChildren(drawing, centre);
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
    if (bucket === drawnBucket) return;
    drawnBucket = bucket;
    for (const piece of pieces) piece.update(bucket);
    sums.update(bucket);
    if (focused !== null) words.textContent = focused.words(bucket);
  });
}

/** A round number not above x. */
function nice(x: number): number {
  const ten = 10 ** Math.floor(Math.log10(Math.max(1, x)));
  return [5, 2, 1].find((m) => m * ten <= x)! * ten;
}
