/** Widths of elements as the browser tells them, so that nothing that draws has to ask and force a layout. */

/** Runs `changed` when the element first has a width [px], and whenever it has another. */
export function watchWidth(element: Element, changed: (width: number) => void): void {
  let last = Number.NaN;
  new ResizeObserver(([entry]) => {
    const width = entry?.contentRect.width ?? 0;
    if (width === last || width === 0) return;
    last = width;
    changed(width);
  }).observe(element);
}
