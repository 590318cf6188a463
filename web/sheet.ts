/** What all drawings share: margins, sizes in device pixels, ticks and their words. */
import { scaleLinear } from 'd3';

/** Room for the value axis, the same in every panel so that moments stand under each other [px]. */
export const gutter = 68;

/** Gives a canvas its size in device pixels; clears it. */
export function size(canvas: HTMLCanvasElement, width: number, height: number): void {
  const ratio = devicePixelRatio;
  const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
    canvas.style.width = `${width}px`;
    canvas.style.height = `${height}px`;
  }
  canvas.getContext('2d')!.setTransform(ratio, 0, 0, ratio, 0, 0);
}

/** Moments that get a line: shared by grid and ruler. */
export function momentTicks(from_s: number, to_s: number, width: number): readonly number[] {
  return scaleLinear([from_s, to_s], [0, width]).ticks(Math.max(2, width / 110));
}

/** Prefixes of axes: a value of this size or more takes the next one. */
const steps: readonly (readonly [size: number, prefix: string])[] = [
  [1e6, 'M'],
  [1e3, 'k'],
];

/** A tick's value with its unit: as short as the spacing of the ticks allows, so that no two read alike. */
export function axisText(v: number, unit: string, ticks: readonly number[]): string {
  const spacing = Math.abs((ticks[1] ?? v) - (ticks[0] ?? v));
  if (unit === 'ratio') return ticked(v, spacing, 0.01, '%');
  if (unit === 'V') return ticked(v, Math.min(spacing, 0.1), 1, 'V');
  if (unit === 's' || unit === '') return ticked(v, spacing, 1, unit);
  const largest = Math.max(...ticks.map(Math.abs));
  const [scale, prefix] = steps.find(([size]) => largest >= size) ?? [1, ''];
  return ticked(v, spacing, scale, `${prefix}${unit}`);
}

function ticked(v: number, spacing: number, scale: number, unit: string): string {
  const digits = spacing > 0 ? Math.max(0, Math.ceil(-Math.log10(spacing / scale) - 1e-9)) : 1;
  return `${(v / scale).toFixed(Math.min(9, digits)).replace('-', '−')} ${unit}`.trimEnd();
}

/** Those of some ticks whose labels have room beside each other, from the left. */
export function roomy(
  ticks: readonly number[],
  x: (tick: number) => number,
  apart_px: number,
): readonly number[] {
  let last = Number.NEGATIVE_INFINITY;
  return ticks.filter((tick) => {
    if (x(tick) - last < apart_px) return false;
    last = x(tick);
    return true;
  });
}
