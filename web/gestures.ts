/**
 * Pointer and wheel over a panel. Moving points the cursor, a click holds it, dragging shows the dragged
 * stretch, dragging with Shift moves the view. Ctrl (or Cmd, Alt) with the wheel zooms; a sideways wheel pans;
 * a plain wheel is left to the page's own scrolling. Fingers: `touch.ts`.
 */
import type { Lens } from './lens.ts';
import { gutter } from './sheet.ts';
import { moveFingers } from './touch.ts';

/** Shorter drags count as clicks [px]. */
const slack_px = 4;

export function listenToPointer(plot: HTMLElement, rubber: HTMLElement, lens: Lens): void {
  const fingers = new Map<number, number>();
  let startX = Number.NaN;
  let lastX = Number.NaN;
  let [panning, moved] = [false, false];
  let width = 50;
  /** Place in the plot, whose width is measured with it. */
  const pixel = (event: MouseEvent): number => {
    const box = plot.getBoundingClientRect();
    width = Math.max(50, box.width - gutter);
    return Math.min(width, Math.max(0, event.clientX - box.left - gutter));
  };
  const perPixel = (): number => (lens.to_s - lens.from_s) / width;
  const time = (x: number): number => lens.from_s + x * perPixel();

  plot.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    startX = pixel(event);
    lastX = startX;
    panning = event.shiftKey;
    moved = false;
    if (event.pointerType === 'touch') fingers.set(event.pointerId, startX);
    plot.setPointerCapture(event.pointerId);
  });
  plot.addEventListener('pointermove', (event) => {
    const x = pixel(event);
    if (Number.isNaN(startX)) return lens.point(time(x));
    moved ||= Math.abs(x - startX) >= slack_px;
    if (fingers.has(event.pointerId)) {
      const before = [...fingers.values()];
      if (!moved) return;
      fingers.set(event.pointerId, x);
      moveFingers(lens, width, before, [...fingers.values()]);
    } else if (panning) lens.pan(-(x - lastX) * perPixel());
    else if (moved) {
      rubber.hidden = false;
      rubber.style.left = `${gutter + Math.min(x, startX)}px`;
      rubber.style.width = `${Math.abs(x - startX)}px`;
    }
    lastX = x;
  });
  plot.addEventListener('pointerup', (event) => {
    if (Number.isNaN(startX)) return;
    const x = pixel(event);
    const touched = fingers.delete(event.pointerId);
    if (!moved) lens.pin(time(x));
    else if (!panning && !touched) lens.show(time(Math.min(x, startX)), time(Math.max(x, startX)));
    if (fingers.size === 0) startX = Number.NaN;
    rubber.hidden = true;
  });
  plot.addEventListener('pointercancel', (event) => {
    fingers.delete(event.pointerId);
    startX = Number.NaN;
    rubber.hidden = true;
  });
  plot.addEventListener('dblclick', () => lens.reset());
  plot.addEventListener(
    'wheel',
    (event) => {
      const x = pixel(event);
      wheel(event, lens, () => time(x), perPixel());
    },
    { passive: false },
  );
}
/** Zoom or pan by wheel; `always` zooms without a key held (the ruler). */
export function wheel(
  event: WheelEvent,
  lens: Lens,
  about: () => number,
  perPixel: number,
  always = false,
): void {
  const sideways = event.shiftKey ? event.deltaX || event.deltaY : event.deltaX;
  if (always || event.ctrlKey || event.metaKey || event.altKey) {
    event.preventDefault();
    lens.zoom(Math.exp(0.0016 * event.deltaY), about());
  } else if (Math.abs(sideways) > (event.shiftKey ? 0 : Math.abs(event.deltaY))) {
    event.preventDefault();
    lens.pan(sideways * perPixel);
  }
}
