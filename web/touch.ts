/**
 * Fingers on a panel: one moves the view sideways, two stretch it, each keeping the moment under it. The page's own
 * scrolling up and down stays (touch-action: pan-y), which is why d3-zoom, which takes every move, is not used here.
 */
import type { Lens } from './lens.ts';

/** Fingers nearer than this say nothing about a scale [px]. */
const nearest_px = 24;

/** Shows the stretch in which what lay under `before` lies under `after` [px from the left of a plot of `width`]. */
export function moveFingers(
  lens: Lens,
  width: number,
  before: readonly number[],
  after: readonly number[],
): void {
  const perPixel = (lens.to_s - lens.from_s) / width;
  const [a, b] = before;
  const [nowA, nowB] = after;
  if (a === undefined || nowA === undefined) return;
  if (b === undefined || nowB === undefined) {
    lens.pan(-(nowA - a) * perPixel);
    return;
  }
  const apart = nowB - nowA;
  if (Math.abs(apart) < nearest_px || Math.abs(b - a) < nearest_px || apart * (b - a) < 0) return;
  const scale = (perPixel * (b - a)) / apart;
  const from_s = lens.from_s + a * perPixel - nowA * scale;
  lens.show(from_s, from_s + width * scale);
}
