/** The sheet that a plot is drawn on when it leaves the page: title, axes, drawing, names with their marks. Light, vectors only. */
import { select } from 'd3';
import { svg } from '../dom.ts';
import type { Row } from '../panels/read-out.ts';
import { VectorPen } from '../pen/vector-pen.ts';
import { gutter } from '../sheet.ts';
import { ink, inLight } from '../theme.ts';
import { drawLegend } from './legend.ts';

export interface Sheet {
  readonly title: string;
  /** Of the whole sheet [px]. */
  readonly width: number;
  /** Of the drawing with its axes [px]. */
  readonly height: number;
  /** Names of what is drawn. */
  readonly legend: readonly Row[];
  /** Draws with the pen right of the value axis; axes go to `axes`, whose origin is the left edge. */
  draw(pen: VectorPen, axes: SVGGElement): void;
}

/** Room for the title, left of the longest value, for the last tick's label at the right, under the legend [px]. */
const head_px = 26;
const left_px = 8;
const right_px = 22;
const foot_px = 6;
const font = 'system-ui, sans-serif';

/** Width of the drawing itself on a sheet of that width [px]. */
export function plotWidth(sheet_px: number): number {
  return Math.floor(sheet_px) - left_px - gutter - right_px;
}

export function pictureOf(sheet: Sheet): SVGSVGElement {
  return inLight(() => {
    const { title, width, height, legend } = sheet;
    const made = svg('defs');
    const paper = svg('rect', { width: '100%', height: '100%', fill: ink('panel') });
    const heading = {
      x: 8,
      y: 17,
      'font-size': 14,
      'font-weight': 650,
      'font-family': font,
      fill: ink('ink'),
    };
    const axes = svg('g', { transform: `translate(${left_px},${head_px})` });
    const drawing = svg('g', { transform: `translate(${left_px + gutter},${head_px})` });
    const names = svg('g', { transform: `translate(${left_px + gutter},${head_px + height})` });
    sheet.draw(new VectorPen(drawing, made), axes);
    dress(axes);
    const legend_px = drawLegend(new VectorPen(names, made), legend, plotWidth(width));
    const whole = head_px + height + legend_px + foot_px;
    return svg(
      'svg',
      { xmlns: 'http://www.w3.org/2000/svg', width, height: whole, viewBox: `0 0 ${width} ${whole}` },
      svg('title', {}, title),
      made,
      paper,
      svg('text', heading, title),
      axes,
      drawing,
      names,
    );
  });
}

/** Axes carry their look themselves: no style sheet goes with a picture. */
function dress(axes: SVGGElement): void {
  const all = select(axes);
  all.selectAll('.domain').remove();
  all.selectAll('text').attr('fill', ink('muted')).attr('font-size', 11.5).attr('font-family', font);
  all.selectAll('line').attr('stroke', ink('faint'));
}
