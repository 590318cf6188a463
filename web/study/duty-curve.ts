/** Pulsed over steady rating against duty, a line for each period, with the steady load and common practice. */
import { line, scaleLinear } from 'd3';
import { commonPulsedRatio } from '../../src/studies/rating/judge.ts';
import type { CurvePoint } from '../../src/studies/rating/report.ts';
import { html, svg } from '../dom.ts';
import { wholePercent, withUnit } from '../numbers.ts';
import { across, type Field, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';

/** Dashes tell the lines apart where colours do not. */
const dashes = ['', '7 4', '2 3', '9 3 2 3'] as const;

interface Place {
  readonly period: string;
  readonly duty_ratio: number;
  readonly ratio: number;
  readonly high_W: number | null;
}

/** Null where duties are no row of numbers to draw along. */
export function dutyCurve(curve: readonly CurvePoint[]): HTMLElement | null {
  const places = curve
    .flatMap(({ duty, period, pulsed_over_steady_ratio: ratio, high_W }): Place[] => {
      const duty_ratio = dutyOf(duty);
      return duty_ratio === null || ratio === null ? [] : [{ period, duty_ratio, ratio, high_W }];
    })
    .sort((a, b) => a.duty_ratio - b.duty_ratio);
  if (new Set(places.map(({ duty_ratio }) => duty_ratio)).size < 2) return null;
  const periods = [...new Set(places.map(({ period }) => period))];
  return html(
    'div',
    {},
    html('p', { class: 'legend' }, ...periods.map(legendOf)),
    chart({
      label: 'pulsed relative to steady rating, against duty',
      height: (width) => Math.max(260, Math.min(360, 0.32 * width)),
      draw: (width, height) => drawn(places, periods, width, height),
    }),
  );
}

function drawn(places: readonly Place[], periods: readonly string[], width: number, height: number): Drawing {
  const field: Field = { left: 56, right: width - 16, top: 28, bottom: height - 40 };
  const ratios = places.map(({ ratio }) => ratio);
  const duties = [...new Set(places.map(({ duty_ratio }) => duty_ratio))];
  const x = scaleLinear([duties[0]!, duties.at(-1)!], [field.left + 14, field.right - 14]);
  const y = scaleLinear(
    [Math.min(commonPulsedRatio, ...ratios) - 0.03, Math.max(1, ...ratios) + 0.03],
    [field.bottom, field.top],
  ).nice(5);
  const path = line<Place>()
    .x(({ duty_ratio }) => x(duty_ratio))
    .y(({ ratio }) => y(ratio));
  return {
    row: 0,
    children: [
      ...upward(
        field,
        y.ticks(5).map((value) => ({ at: y(value), words: `${Math.round(100 * value)} %` })),
        'largest high level, relative to the steady rating',
      ),
      ...across(
        field,
        duties.map((duty) => ({ at: x(duty), words: `${Number((100 * duty).toPrecision(3))} %` })),
        'duty',
        false,
      ),
      level(y(1), 'steady rating', 'steady', field),
      level(y(commonPulsedRatio), 'common practice, 5/6', 'limit', field),
      ...periods.map((period, k) => {
        const own = places.filter((place) => place.period === period);
        return svg(
          'g',
          { class: `duty duty-${k % dashes.length}` },
          svg('path', { class: 'curve', fill: 'none', 'stroke-dasharray': dashOf(k), d: path(own) ?? '' }),
          ...own.map(({ duty_ratio, ratio }) =>
            svg('circle', { class: 'dot', cx: x(duty_ratio), cy: y(ratio), r: 3.5 }),
          ),
        );
      }),
    ],
    stops: places.map(({ period, duty_ratio, ratio, high_W }) => ({
      x: x(duty_ratio),
      y: y(ratio),
      words: `Period ${period}, duty ${wholePercent(duty_ratio)}: ${withUnit(high_W, 'W')}, ${withUnit(ratio, 'ratio')} of the steady rating`,
    })),
  };
}

function level(y: number, words: string, kind: string, { left, right }: Field): SVGElement {
  return svg(
    'g',
    {},
    svg('line', { class: kind, x1: left, x2: right, y1: y, y2: y }),
    svg('text', { x: right - 4, y: y - 5, 'text-anchor': 'end' }, words),
  );
}

function legendOf(period: string, k: number): HTMLElement {
  return html(
    'span',
    {},
    svg(
      'svg',
      { class: `chart duty duty-${k % dashes.length}`, viewBox: '0 0 32 8', 'aria-hidden': 'true' },
      svg('line', { class: 'curve', x1: 0, x2: 32, y1: 4, y2: 4, 'stroke-dasharray': dashOf(k) }),
    ),
    `period ${period}`,
  );
}

function dashOf(k: number): string {
  return dashes[k % dashes.length]!;
}

/** `30 %` or `0.3` as a share; null for anything else. */
function dutyOf(text: string): number | null {
  const found = /^([\d.]+)\s*(%?)$/.exec(text.trim());
  return found === null ? null : Number(found[1]) / (found[2] === '%' ? 100 : 1);
}
