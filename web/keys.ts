/** Keys that work anywhere on the page but in a field: cursor, zoom, events. */
import type { Lens } from './lens.ts';

/** Share of the shown span that one press moves the cursor. */
const step = 1 / 400;

/** `happenings_s`: moments that n and p jump between, ascending. */
export function listenToKeys(lens: Lens, happenings_s: readonly number[]): void {
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const target = event.target as HTMLElement;
    if (target.closest('select, input, textarea, [data-own-keys]') !== null) return;
    const act = action(event, lens, happenings_s);
    if (act === null) return;
    event.preventDefault();
    act();
  });
}

function action(event: KeyboardEvent, lens: Lens, happenings_s: readonly number[]): (() => void) | null {
  const span = lens.to_s - lens.from_s;
  const by = span * step * (event.shiftKey ? 20 : 1);
  switch (event.key) {
    case 'ArrowLeft':
      return () => lens.pin(lens.cursor_s - by);
    case 'ArrowRight':
      return () => lens.pin(lens.cursor_s + by);
    case '+':
    case '=':
      return () => lens.zoom(0.5, lens.cursor_s);
    case '-':
    case '_':
      return () => lens.zoom(2, lens.cursor_s);
    case '0':
      return () => lens.reset();
    case 'n':
      return () =>
        jump(
          lens,
          happenings_s.find((t) => t > lens.cursor_s + 1e-9),
        );
    case 'p':
      return () =>
        jump(
          lens,
          happenings_s.findLast((t) => t < lens.cursor_s - 1e-9),
        );
    case 'Escape':
      return () => lens.release();
    default:
      return null;
  }
}

function jump(lens: Lens, to_s: number | undefined): void {
  if (to_s !== undefined) lens.pin(to_s);
}
