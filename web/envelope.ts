/**
 * The duration envelope of the bus: for every voltage level the longest single stay of any node beyond it, against the
 * stays that the limits forbid. Time in which batteries carry has limits of its own and so a drawing of its own.
 */
import type { Bundle } from '../src/bundle/format.ts';
import { html, svg } from './dom.ts';
import { type EnvelopeColumn, envelopeColumns, lowestUndershot, type Stay } from './envelope-columns.ts';
import { drawEnvelope, drawEnvelopeAxes, envelopeScales, height_px } from './envelope-drawing.ts';
import type { Lens } from './lens.ts';
import { gutter, size } from './sheet.ts';
import { pictureOf, plotWidth } from './taken/picture.ts';
import { addPlot } from './taken/plot.ts';
import type { Table } from './taken/table.ts';
import { watchWidth } from './width.ts';

const title = 'Bus voltage against duration';
const note = 'longest single stay of any node beyond a level; hatched: beyond the limits';
/** Right of the plot, for the last tick's label [px]. */
const right_px = 22;

export function showEnvelope(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  const columns = envelopeColumns(bundle);
  host.append(html('header', {}, html('h3', {}, title), html('p', {}, note)));
  const { levels_V } = bundle.result.stays;
  if (levels_V.length === 0) return;
  const window_s = bundle.result.window.to_s - bundle.result.window.from_s;
  const values = [
    ...levels_V,
    ...columns.flatMap(({ forbidden }) => forbidden.map(({ limit_V }) => limit_V)),
  ];
  const range = [Math.min(...values) - 0.6, Math.max(...values) + 0.6] as const;
  for (const column of columns) {
    const canvas = html('canvas', { 'aria-hidden': 'true' });
    const axes = svg('svg', { class: 'axis', height: height_px, 'aria-hidden': 'true' });
    const label = `${column.title}: ${lowestUndershot(column.below)}`;
    const plot = html(
      'div',
      { class: 'plot still', role: 'img', 'aria-label': label, style: `height:${height_px}px` },
      canvas,
      axes,
    );
    const controls = html('div', { class: 'controls' });
    const heading = html(
      'div',
      { class: 'heading' },
      columns.length > 1 ? html('h4', {}, column.title) : null,
      controls,
    );
    host.append(
      html(
        'div',
        { class: 'column' },
        heading,
        plot,
        html('p', { class: 'worst note' }, lowestUndershot(column.below)),
      ),
    );
    let outer = 0;
    const draw = (): void => {
      const width = widthIn(outer);
      const { x, y } = envelopeScales(range, window_s, width);
      size(canvas, width, height_px);
      const pen = canvas.getContext('2d')!;
      pen.clearRect(0, 0, width, height_px);
      drawEnvelope(pen, column, x, y);
      axes.setAttribute('width', String(gutter + width + right_px));
      drawEnvelopeAxes(axes, x, y);
    };
    watchWidth(plot, (now) => {
      outer = now;
      draw();
    });
    lens.watch(({ look }) => {
      if (look && outer > 0) draw();
    });
    const full = `${title}, ${column.title}`;
    addPlot({
      id: `durations-${column.title.replaceAll(' ', '-')}`,
      title: full,
      note: `${note}. ${lowestUndershot(column.below)}`,
      controls,
      drawing: plot,
      picture: (width) =>
        pictureOf({
          title: full,
          width,
          height: height_px,
          legend: [],
          draw(pen, host) {
            const { x, y } = envelopeScales(range, window_s, plotWidth(width));
            drawEnvelope(pen, column, x, y);
            drawEnvelopeAxes(host, x, y);
          },
        }),
      table: () => stayTable(column),
    });
  }
}

function widthIn(outer: number): number {
  return Math.max(50, outer - gutter - right_px);
}

/** For every level the longest stay below it, or above it. */
function stayTable({ below, above }: EnvelopeColumn): Table {
  const levels = [...new Set([...below, ...above].map(({ level_V }) => level_V))].sort((a, b) => a - b);
  const stays = (those: readonly Stay[]): number[] =>
    levels.map((level) => those.find(({ level_V }) => level_V === level)?.longest_s ?? Number.NaN);
  return {
    over: { name: 'level_V', values: levels },
    columns: [
      { name: 'longest_below_s', values: stays(below) },
      { name: 'longest_above_s', values: stays(above) },
    ],
  };
}
