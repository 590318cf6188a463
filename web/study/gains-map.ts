/** The map of a gains study: a tile for each point, values on both axes, the recommended point ringed. */

import { letterOf, standingOf } from '../../src/studies/gains/accept.ts';
import { pointTrial } from '../../src/studies/gains/point-trial.ts';
import type { GainsReport } from '../../src/studies/gains/report.ts';
import { pathWords } from '../../src/studies/path-words.ts';
import { html, svg } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { across, apart, type Field, number, widthOf } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';
import type { StudyPage } from './study-page.ts';
import { trialBox } from './trial/box.ts';

type Box = NonNullable<GainsReport['recommended']>['box'];
type Cell = GainsReport['cells'][number];

/** Tiles narrower than this hold no letter [px]. */
const letter_px = 11;

export function gainsMap(page: StudyPage, report: GainsReport): HTMLElement {
  const { axes, cells, recommended } = report;
  const [a, b] = axes;
  const run = html('div', { class: 'detail', hidden: true });
  const chosen = recommended === null ? null : recommended.place[0] * b.values.length + recommended.place[1];
  const map = chart({
    label: `map of ${pathWords(a.path)} against ${pathWords(b.path)}`,
    height: (width) => 70 + a.values.length * Math.max(9, Math.min(30, (width - 90) / a.values.length)),
    draw: (width, height) => drawn(report, width, height),
    ...(chosen === null ? {} : { first: chosen }),
    chosen(place) {
      const cell = cells[place]!;
      const name = `${pathWords(a.path)} ${a.values[cell.x]}, ${pathWords(b.path)} ${b.values[cell.y]}`;
      run.hidden = false;
      run.replaceChildren(trialBox(page, { name, trial: pointTrial(report, cell), letter: null }));
    },
  });
  return html('div', {}, map, run);
}

function drawn(report: GainsReport, width: number, height: number): Drawing {
  const { axes, cells, recommended, acceptance } = report;
  const [a, b] = axes;
  const left = Math.max(...a.values.map(widthOf)) + 12;
  const field: Field = { left, right: width - 4, top: 26, bottom: height - 40 };
  const wide = (field.right - field.left) / b.values.length;
  const high = (field.bottom - field.top) / a.values.length;
  const across_px = (y: number): number => field.left + (y + 0.5) * wide;
  const down_px = (x: number): number => field.top + (x + 0.5) * high;
  const isChosen = ({ x, y }: Cell): boolean =>
    recommended !== null && recommended.place[0] === x && recommended.place[1] === y;
  // Down the page every so many values, so that their words stand clear.
  const every = Math.ceil(15 / high);
  return {
    row: b.values.length,
    stops: cells.map((cell) => ({ x: across_px(cell.y), y: down_px(cell.x), words: wordsOf(report, cell) })),
    children: [
      ...cells.map((cell) =>
        tile(
          cell,
          letterOf(cell, acceptance),
          across_px(cell.y),
          down_px(cell.x),
          wide,
          high,
          isChosen(cell),
        ),
      ),
      ...(recommended === null ? [] : [boxOf(recommended.box, across_px, down_px, wide, high)]),
      ...a.values.map((value, x) =>
        x % every === 0
          ? svg('text', { x: field.left - 6, y: down_px(x) + 4, 'text-anchor': 'end' }, value)
          : svg('g', {}),
      ),
      svg('text', { class: 'axis-title', x: 2, y: field.top - 10 }, pathWords(a.path)),
      ...across(
        field,
        apart(
          b.values.map((value, y) => ({ at: across_px(y), words: value })),
          field.right,
        ),
        pathWords(b.path),
        false,
      ),
    ],
  };
}

/** The frame of the box that a supplier may be held to. */
function boxOf(
  { from, to }: Box,
  across_px: (y: number) => number,
  down_px: (x: number) => number,
  wide: number,
  high: number,
): SVGElement {
  return svg('rect', {
    class: 'requirement-box',
    x: across_px(from[1]) - wide / 2,
    y: down_px(from[0]) - high / 2,
    width: across_px(to[1]) - across_px(from[1]) + wide,
    height: down_px(to[0]) - down_px(from[0]) + high,
  });
}

function tile(
  cell: Cell,
  letter: string,
  x: number,
  y: number,
  wide: number,
  high: number,
  isChosen: boolean,
): SVGElement {
  const fits = Math.min(wide, high) >= letter_px;
  return svg(
    'g',
    { class: `tile ${standingOf(cell)}${isChosen ? ' recommended' : ''}` },
    svg('rect', {
      x: x - wide / 2 + 0.5,
      y: y - high / 2 + 0.5,
      width: Math.max(1, wide - 1),
      height: Math.max(1, high - 1),
    }),
    fits && !isChosen ? svg('text', { x, y: y + 4, 'text-anchor': 'middle' }, letter) : null,
    isChosen
      ? svg('circle', { class: 'best', cx: x, cy: y, r: Math.max(4, Math.min(9, high / 2 - 2)) })
      : null,
  );
}

function wordsOf({ axes }: GainsReport, cell: Cell): string {
  const [a, b] = axes;
  const place = `${pathWords(a.path)} ${a.values[cell.x]}, ${pathWords(b.path)} ${b.values[cell.y]}`;
  if (cell.reason !== null) return `${place}: ${cell.reason}`;
  const plain = (value: number | null): string => (value === null ? '–' : number(value));
  return [
    `${place}: ${cell.lacks ?? 'acceptable'}`,
    `damping ${plain(cell.damping_ratio)} at ${withUnit(cell.damping_Hz, 'Hz')}, ${plain(cell.damping_fast_ratio)} at ${withUnit(cell.damping_fast_Hz, 'Hz')}`,
    `share loop ${plain(cell.clearance_ratio)} from −1, settles in ${withUnit(cell.settling_s, 's')}, overshoot ${withUnit(cell.overshoot_ratio, 'ratio')}, steady error ${withUnit(cell.steady_error_ratio, 'ratio')}`,
  ].join('; ');
}
