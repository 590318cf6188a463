/** What the outcome of a spread depends on: rank correlations as bars to both sides; those within chance are hollow. */

import { scaleLinear } from 'd3';
import { pathWords } from '../../src/studies/path-words.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { svg } from '../dom.ts';
import { across, type Field, number } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';
import { ofWords } from './histogram.ts';

/** Bars that are drawn: the strongest. */
const most = 15;
const [row, bar] = [34, 12] as const;
const [head, foot] = [8, 42] as const;

export function tornadoOf(report: SpreadReport): HTMLElement {
  const count = Math.min(most, report.sensitivity.length);
  return chart({
    label: `rank correlation of each drawn value with the ${ofWords(report.of).words}`,
    height: () => head + count * row + foot,
    draw: (width, height) => drawn(report, width, height),
  });
}

/** A name stands above its bar, so that a narrow drawing has room for both. */
function drawn({ sensitivity, noise, of }: SpreadReport, width: number, height: number): Drawing {
  const field: Field = { left: 34, right: width - 34, top: head, bottom: height - foot };
  const x = scaleLinear([-1, 1], [field.left, field.right]);
  const rows = sensitivity.slice(0, most).map((one, k) => ({ ...one, y: head + k * row }));
  return {
    row: 0,
    children: [
      svg('rect', {
        class: 'chance',
        x: x(-noise),
        y: head,
        width: x(noise) - x(-noise),
        height: field.bottom - head,
      }),
      svg('line', { x1: x(0), x2: x(0), y1: head, y2: field.bottom }),
      ...rows.map(({ path, rank_correlation: r, clear, y }) =>
        svg(
          'g',
          {},
          svg('text', { x: field.left, y: y + 13 }, pathWords(path)),
          svg('rect', {
            class: clear ? 'bar' : 'bar hollow',
            x: Math.min(x(0), x(r)),
            y: y + 17,
            width: Math.max(1, Math.abs(x(r) - x(0))),
            height: bar,
          }),
          svg(
            'text',
            { x: x(r) + (r < 0 ? -5 : 5), y: y + 27, 'text-anchor': r < 0 ? 'end' : 'start' },
            r.toFixed(2).replace('-', '−'),
          ),
        ),
      ),
      ...across(
        field,
        [-1, -0.5, 0, 0.5, 1].map((value) => ({ at: x(value), words: number(value) })),
        `rank correlation with the ${ofWords(of).words}`,
        false,
      ),
    ],
    stops: rows.map(({ path, rank_correlation: r, clear, y }) => ({
      x: x(r),
      y: y + 17 + bar / 2,
      words: `${pathWords(path)} (${path}): ${r.toFixed(2).replace('-', '−')}, ${clear ? 'more than chance' : 'no more than chance'}`,
    })),
  };
}
