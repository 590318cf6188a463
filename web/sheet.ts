/** What all drawings share: margins, sizes in device pixels, ticks and their words. */
import { scaleLinear } from 'd3';
import { withUnit } from './numbers.ts';

/** Room for the value axis, the same in every panel so that moments stand under each other [px]. */
export const gutter = 62;

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

/** A tick's value with its unit, as short as the spacing of the ticks allows. */
export function axisText(v: number, unit: string, ticks: readonly number[]): string {
  const spacing = Math.abs((ticks[1] ?? v) - (ticks[0] ?? v));
  if (unit === 'W') return `${(v / 1e3).toFixed(spacing < 1e3 ? 1 : 0).replace('-', '−')} kW`;
  if (unit === 'W/s' && spacing >= 5e5)
    return `${(v / 1e6).toFixed(spacing < 1e6 ? 1 : 0).replace('-', '−')} MW/s`;
  if (unit === 'W/s') return `${(v / 1e3).toFixed(spacing < 1e3 ? 1 : 0).replace('-', '−')} kW/s`;
  if (unit === 'ratio') return `${(100 * v).toFixed(spacing < 0.01 ? 1 : 0).replace('-', '−')} %`;
  if (unit === 'V') return `${v.toFixed(spacing < 0.1 ? 2 : 1)} V`;
  return withUnit(v, unit);
}
