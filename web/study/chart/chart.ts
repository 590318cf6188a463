/**
 * The frame of every drawing of a study: as wide as the page, drawn again at each width; below it one read-out that names
 * the value under the pointer, or the one that the arrow keys have come to.
 */
import { html, svg } from '../../dom.ts';
import { watchWidth } from '../../width.ts';

/** A place of the drawing that has a value to tell. */
export interface Stop {
  readonly x: number;
  readonly y: number;
  /** The value in words, with units. */
  readonly words: string;
}

export interface Drawing {
  readonly children: readonly SVGElement[];
  readonly stops: readonly Stop[];
  /** Stops in a row, where up and down lead to another row; 0 where they follow each other in one. */
  readonly row: number;
}

export interface ChartSpec {
  readonly label: string;
  readonly height: (width: number) => number;
  readonly draw: (width: number, height: number) => Drawing;
  /** The stop that is told at first; none where left out. */
  readonly first?: number;
  /** Distance counts across alone: of curves, whose pointer is anywhere above or below them. */
  readonly across?: boolean;
  readonly chosen?: (stop: number) => void;
}

const hint = 'Point at the drawing, or move through its values with the arrow keys.';

export function chart(spec: ChartSpec): HTMLElement {
  const drawn = svg('svg', { class: 'chart', role: 'img', 'aria-label': spec.label });
  const ring = svg('circle', { class: 'ring', r: 7, visibility: 'hidden' });
  const readOut = html('output', { class: 'reading', 'aria-live': 'polite' }, hint);
  const frame = html(
    'div',
    { class: 'framed', tabindex: 0, role: 'group', 'aria-label': `${spec.label}. ${hint}` },
    drawn,
  );
  let drawing: Drawing = { children: [], stops: [], row: 0 };
  let at = spec.first ?? -1;

  const tell = (place: number): void => {
    const stop = drawing.stops[place];
    if (stop === undefined) return;
    at = place;
    ring.setAttribute('cx', String(stop.x));
    ring.setAttribute('cy', String(stop.y));
    ring.setAttribute('visibility', 'visible');
    if (readOut.textContent !== stop.words) readOut.textContent = stop.words;
  };
  const nearest = (event: PointerEvent | MouseEvent): number => {
    const box = drawn.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const upward = spec.across === true ? 1e-3 : 1;
    return nearestOf(drawing.stops, x, y, upward);
  };
  frame.addEventListener('pointermove', (event) => tell(nearest(event)));
  frame.addEventListener('click', (event) => {
    tell(nearest(event));
    if (at >= 0) spec.chosen?.(at);
  });
  frame.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' && at >= 0) spec.chosen?.(at);
    const next = stepped(event.key, at, drawing);
    if (next === null) return;
    event.preventDefault();
    tell(next);
  });
  watchWidth(frame, (width) => {
    const height = spec.height(width);
    drawing = spec.draw(width, height);
    drawn.setAttribute('viewBox', `0 0 ${width} ${height}`);
    drawn.replaceChildren(...drawing.children, ring);
    tell(at);
  });
  return html('div', { class: 'charted' }, frame, readOut);
}

function nearestOf(stops: readonly Stop[], x: number, y: number, upward: number): number {
  let [best, least] = [-1, Number.POSITIVE_INFINITY];
  stops.forEach((stop, k) => {
    const far = Math.hypot(stop.x - x, upward * (stop.y - y));
    if (far < least) [best, least] = [k, far];
  });
  return best;
}

/** Where a key leads from a stop; null for keys that lead nowhere. */
function stepped(key: string, at: number, { stops, row }: Drawing): number | null {
  const last = stops.length - 1;
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: 1,
    ArrowLeft: -1,
    ArrowDown: row === 0 ? 1 : row,
    ArrowUp: row === 0 ? -1 : -row,
  };
  if (key === 'Home') return 0;
  if (key === 'End') return last;
  const step = steps[key];
  if (step === undefined || last < 0) return null;
  if (at < 0) return 0;
  const next = at + step;
  return next < 0 || next > last ? at : next;
}
