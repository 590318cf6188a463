/** The whole run in a strip with an axis of its own: the demand, what is not judged, the window that is shown. */
import { type BrushBehavior, brushX, type D3BrushEvent, scaleLinear, select } from 'd3';
import type { Result } from '../src/engine/result.ts';
import { type Bound, bindingOf } from './binding.ts';
import { makeOutline, outline } from './columns.ts';
import { html, svg } from './dom.ts';
import { outsideBands } from './judged-time.ts';
import type { Lens } from './lens.ts';
import { fullest, writeWords } from './panels/shade.ts';
import type { Record } from './record.ts';
import { axisText, momentTicks, size } from './sheet.ts';
import { hatch, ink } from './theme.ts';
import { watchWidth } from './width.ts';

/** The strip, and the foot of it that holds the axis [px]. */
export const height_px = 36;
const foot_px = 12;

/** What of a run its strip shows beside the demand. */
export interface Overviewed extends Bound {
  readonly result: Pick<Result, 'failure' | 'log'>;
}

export function makeOverview(lens: Lens, record: Record, bundle: Overviewed): HTMLElement {
  const [start, end] = lens.whole_s;
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const window = svg('svg', { class: 'window', height: height_px, 'aria-hidden': 'true' });
  const cursor = html('div', { class: 'cursor' });
  const strip = html(
    'div',
    {
      class: 'overview',
      style: `height:${height_px}px`,
      title: 'the whole run: drag the window or its ends, or draw another; click to go there',
    },
    canvas,
    window,
    cursor,
  );
  const x = scaleLinear([start, end], [0, 1]);
  const group = select(window).append('g');
  let brush: BrushBehavior<unknown> | null = null;
  let held = false;

  const show = ({ selection, sourceEvent, type }: D3BrushEvent<unknown>): void => {
    if (!sourceEvent) return;
    held = type !== 'end';
    if (Array.isArray(selection)) {
      const [left, right] = selection as [number, number];
      lens.show(x.invert(left), x.invert(right));
    } else if (type === 'end') {
      // A click without a drag takes the window there.
      const at = x.invert((sourceEvent as MouseEvent).clientX - strip.getBoundingClientRect().left);
      const half = (lens.to_s - lens.from_s) / 2;
      lens.show(at - half, at + half);
    }
  };
  const place = (): void => {
    if (brush === null) return;
    if (!held) group.call(brush.move, [x(lens.from_s), x(lens.to_s)]);
    cursor.style.transform = `translateX(${x(lens.cursor_s)}px)`;
  };
  const draw = (): void => drawRun(canvas, x.range()[1]!, record, bundle, lens.whole_s);
  watchWidth(strip, (width) => {
    x.range([0, width]);
    window.setAttribute('width', String(width));
    brush = brushX<unknown>()
      .extent([
        [0, 0],
        [width, height_px],
      ])
      .on('start brush end', show);
    group.call(brush);
    draw();
    place();
  });
  lens.watch(({ look }) => {
    if (look && brush !== null) draw();
  });
  lens.write(place);
  return strip;
}

/** Drawn once for a width and theme. Log entries are ticks at the top, the binding moment is a wedge. */
function drawRun(
  canvas: HTMLCanvasElement,
  width: number,
  record: Record,
  bundle: Overviewed,
  whole_s: readonly [number, number],
): void {
  const [start, end] = whole_s;
  const base = height_px - foot_px;
  size(canvas, width, height_px);
  const pen = canvas.getContext('2d')!;
  pen.clearRect(0, 0, width, height_px);
  const x = (t: number): number => ((t - start) / (end - start)) * width;
  const demand = record.series('total.load_W');
  if (demand !== null) {
    const space = makeOutline(width);
    const stretch = { from_s: start, to_s: end, width, firstBucket: 0, lastBucket: record.bucketCount - 1 };
    outline(space, record, demand, stretch);
    const top = space.high.subarray(0, space.count).reduce((most, value) => Math.max(most, value), 1);
    pen.fillStyle = ink('band');
    pen.beginPath();
    pen.moveTo(0, base);
    for (let k = 0; k < space.count; k += 1)
      pen.lineTo(space.x[k]!, base - (0.72 * base * Math.max(0, space.high[k]!)) / top);
    pen.lineTo(width, base);
    pen.fill();
  }
  pen.font = '10px system-ui, sans-serif';
  pen.textBaseline = 'bottom';
  for (const { from_s, to_s, words, partly } of outsideBands(bundle.report, whole_s)) {
    if (partly) continue;
    pen.fillStyle = hatch(pen, 'muted', 'rising');
    pen.globalAlpha = 0.5;
    pen.fillRect(x(from_s), 0, Math.max(1, x(to_s) - x(from_s)), base);
    pen.globalAlpha = 1;
    const fitting = fullest(pen, words.slice(-1), x(to_s) - x(from_s));
    if (fitting !== null) writeWords(pen, fitting, x(from_s), base);
  }
  pen.fillStyle = ink('copper');
  for (const { time_s } of bundle.result.log) pen.fillRect(Math.round(x(time_s)), 0, 1, 5);
  const { time_s } = bindingOf(bundle);
  if (time_s !== null) {
    pen.fillStyle = ink('ink');
    pen.beginPath();
    pen.moveTo(x(time_s) - 5, 0);
    pen.lineTo(x(time_s) + 5, 0);
    pen.lineTo(x(time_s), 8);
    pen.fill();
  }
  pen.fillStyle = ink('muted');
  const ticks = momentTicks(start, end, width);
  for (const t of ticks) {
    pen.textAlign = x(t) < 14 ? 'left' : x(t) > width - 14 ? 'right' : 'center';
    pen.fillRect(Math.min(width - 1, Math.round(x(t))), base, 1, 3);
    pen.fillText(axisText(t, 's', ticks), Math.min(width - 3, Math.max(3, x(t))), height_px + 1);
  }
}
