/**
 * The one view of time that all panels share: what stretch is shown, where the cursor stands. Changes are
 * gathered and told to the panels once per animation frame.
 */
export interface Lens {
  readonly whole_s: readonly [number, number];
  readonly from_s: number;
  readonly to_s: number;
  readonly cursor_s: number;
  /** The cursor stays where it is when the pointer moves over a panel. */
  readonly pinned: boolean;
  show(from_s: number, to_s: number): void;
  /** Makes the shown span `factor` times as long about a moment that keeps its place. */
  zoom(factor: number, about_s: number): void;
  pan(by_s: number): void;
  reset(): void;
  point(at_s: number): void;
  /** Puts the cursor at a moment, holds it there, and brings it into view. */
  pin(at_s: number): void;
  release(): void;
  /** Runs before the next frame after any change: for drawing on canvases. */
  watch(listener: (change: Change) => void): void;
  /**
   * Runs after everybody has drawn: for changes to the document. Words on a canvas ask for its style, and would force
   * the browser to work it out again after every change to the document before them.
   */
  write(listener: (change: Change) => void): void;
  /** Asks for everything to be drawn again, in other colours. */
  refresh(): void;
}

export interface Change {
  /** The stretch shown is another. */
  readonly span: boolean;
  /** Colours are others: what does not follow the stretch is drawn again too. */
  readonly look: boolean;
}

/** Shortest stretch that can be shown [s]. */
const shortest_s = 20e-6;

/** A lens on the run from `start_s` to `end_s`. */
export function makeLens(start_s: number, end_s: number): Lens {
  let [from, to] = [start_s, end_s];
  let cursor = start_s;
  let pinned = false;
  let asked = false;
  let spanChanged = false;
  let lookChanged = false;
  const drawing: ((change: Change) => void)[] = [];
  const writing: ((change: Change) => void)[] = [];

  const ask = (span: boolean, look = false): void => {
    spanChanged ||= span;
    lookChanged ||= look;
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      const change = { span: spanChanged, look: lookChanged };
      asked = false;
      spanChanged = false;
      lookChanged = false;
      for (const listener of [...drawing, ...writing]) listener(change);
    });
  };
  const clampCursor = (t: number): number => Math.min(end_s, Math.max(start_s, t));
  const show = (a: number, b: number): void => {
    const span = Math.min(end_s - start_s, Math.max(shortest_s, b - a));
    from = Math.min(Math.max(start_s, a), end_s - span);
    to = from + span;
    ask(true);
  };

  return {
    whole_s: [start_s, end_s],
    get from_s() {
      return from;
    },
    get to_s() {
      return to;
    },
    get cursor_s() {
      return cursor;
    },
    get pinned() {
      return pinned;
    },
    show,
    zoom(factor, about_s) {
      const span = Math.min(end_s - start_s, Math.max(shortest_s, (to - from) * factor));
      const place = (about_s - from) / (to - from);
      show(about_s - place * span, about_s + (1 - place) * span);
    },
    pan(by_s) {
      show(from + by_s, to + by_s);
    },
    reset() {
      show(start_s, end_s);
    },
    point(at_s) {
      if (pinned) return;
      cursor = clampCursor(at_s);
      ask(false);
    },
    pin(at_s) {
      cursor = clampCursor(at_s);
      pinned = true;
      const span = to - from;
      if (cursor < from || cursor > to) show(cursor - span / 2, cursor + span / 2);
      ask(false);
    },
    release() {
      pinned = false;
      ask(false);
    },
    watch(listener) {
      drawing.push(listener);
    },
    write(listener) {
      writing.push(listener);
    },
    refresh() {
      ask(true, true);
    },
  };
}
