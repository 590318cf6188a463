/**
 * Pointer and wheel over a panel. Moving points the cursor, a click holds it, dragging shows the dragged
 * stretch, dragging with Shift moves the view. Ctrl (or Cmd, Alt) with the wheel zooms; a sideways wheel pans;
 * a plain wheel is left to the page's own scrolling.
 */
import type { Lens } from './lens.ts';
import { gutter } from './sheet.ts';

/** Shorter drags count as clicks [px]. */
const slack_px = 4;

export function listenToPointer(plot: HTMLElement, rubber: HTMLElement, lens: Lens): void {
  let startX = Number.NaN;
  let lastX = Number.NaN;
  let panning = false;
  const width = (): number => Math.max(50, plot.clientWidth - gutter);
  const pixel = (event: MouseEvent): number => {
    const x = event.clientX - plot.getBoundingClientRect().left - gutter;
    return Math.min(width(), Math.max(0, x));
  };
  const perPixel = (): number => (lens.to_s - lens.from_s) / width();
  const time = (x: number): number => lens.from_s + x * perPixel();

  plot.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    startX = pixel(event);
    lastX = startX;
    panning = event.shiftKey;
    plot.setPointerCapture(event.pointerId);
  });
  plot.addEventListener('pointermove', (event) => {
    const x = pixel(event);
    if (Number.isNaN(startX)) return lens.point(time(x));
    if (panning) lens.pan(-(x - lastX) * perPixel());
    else if (Math.abs(x - startX) >= slack_px) {
      rubber.hidden = false;
      rubber.style.left = `${gutter + Math.min(x, startX)}px`;
      rubber.style.width = `${Math.abs(x - startX)}px`;
    }
    lastX = x;
  });
  plot.addEventListener('pointerup', (event) => {
    if (Number.isNaN(startX)) return;
    const x = pixel(event);
    const moved = Math.abs(x - startX) >= slack_px;
    if (!moved) lens.pin(time(x));
    else if (!panning) lens.show(time(Math.min(x, startX)), time(Math.max(x, startX)));
    startX = Number.NaN;
    rubber.hidden = true;
  });
  plot.addEventListener('pointercancel', () => {
    startX = Number.NaN;
    rubber.hidden = true;
  });
  plot.addEventListener('dblclick', () => lens.reset());
  plot.addEventListener('wheel', (event) => wheel(event, lens, () => time(pixel(event)), perPixel()), {
    passive: false,
  });
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
