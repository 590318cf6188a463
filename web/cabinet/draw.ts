/** The cabinet in copper at the cursor's moment: bars as wide as their current, units in their places. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { moment, withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';
import { watchWidth } from '../width.ts';
import { widest_px } from './bars.ts';
import { drawCabinet, largestCurrent } from './drawing.ts';
import type { Piece } from './piece.ts';
import { makeSums } from './sums.ts';

/** Narrower than this the drawing scrolls sideways [px]. */
const narrowest_px = 640;

export function showCabinet(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const largest_A = largestCurrent(record);
  const words = html('output', { class: 'words', 'aria-live': 'polite' });
  const when = html('strong', {}, moment(lens.cursor_s, lens.to_s - lens.from_s));
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
  let drawnBucket = -1;

  const say = (piece: Piece | null): void => {
    focused = piece;
    words.textContent =
      piece === null
        ? 'Point at a bar or a unit for its figures.'
        : piece.words(record.bucketAt(lens.cursor_s));
    for (const other of pieces) other.target.classList.toggle('chosen', other === piece);
  };
  const build = (width: number): void => {
    drawnBucket = -1;
    const drawing = drawCabinet(bundle, record, largest_A, Math.max(narrowest_px, width));
    drawing.root.setAttribute('role', 'group');
    drawing.root.setAttribute('aria-label', 'the cabinet');
    const { middle } = drawing.layout;
    const isInside = width >= narrowest_px && middle !== null;
    if (isInside) {
      const { left, right, top, bottom } = middle;
      centre.style.cssText = `left:${left}px;width:${right - left}px;top:${top}px;height:${bottom - top}px`;
      stage.replaceChildren(drawing.root, centre);
    } else {
      // The middle has no room for the sums: they stand below.
      centre.style.cssText = '';
      stage.replaceChildren(drawing.root);
      stage.after(centre);
    }
    centre.classList.toggle('below', !isInside);
    pieces = drawing.pieces;
    pieces.forEach((piece, k) => {
      piece.target.setAttribute('tabindex', k === 0 ? '0' : '-1');
      piece.target.addEventListener('pointerenter', () => say(piece));
      piece.target.addEventListener('focus', () => say(piece));
    });
    say(null);
    update();
  };
  const update = (): void => {
    const bucket = record.bucketAt(lens.cursor_s);
    when.textContent = moment(lens.cursor_s, lens.to_s - lens.from_s);
    if (bucket === drawnBucket || pieces.length === 0) return;
    drawnBucket = bucket;
    for (const piece of pieces) piece.update(bucket);
    sums.update(bucket);
    if (focused !== null) words.textContent = focused.words(bucket);
  };
  stage.addEventListener('keydown', (event) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (by === undefined || pieces.length === 0) return;
    event.preventDefault();
    const now = focused === null ? 0 : pieces.indexOf(focused);
    const next = pieces[(now + by + pieces.length) % pieces.length]!;
    pieces[now]?.target.setAttribute('tabindex', '-1');
    next.target.setAttribute('tabindex', '0');
    next.target.focus();
  });
  watchWidth(stage, build);
  let inSight = false;
  new IntersectionObserver(([entry]) => {
    inSight = entry?.isIntersecting ?? true;
    if (inSight) update();
  }).observe(host);
  lens.write(() => {
    if (inSight) update();
  });
}

/** A round number not above x. */
function nice(x: number): number {
  const ten = 10 ** Math.floor(Math.log10(Math.max(1, x)));
  return [5, 2, 1].find((m) => m * ten <= x)! * ten;
}
