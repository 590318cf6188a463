/** The profile of a value: by how much the sum of squares grows as it is moved, the others following, and where 95 % ends. */
import { line, scaleLinear } from 'd3';
import { formatQuantity } from '../../../src/base/quantity.ts';
import type { FitResult } from '../../../src/studies/fit/fit-report.ts';
import { pathWords } from '../../../src/studies/path-words.ts';
import { html, svg } from '../../dom.ts';
import { across, apart, type Field, number, upward } from '../chart/axes.ts';
import { chart, type Drawing } from '../chart/chart.ts';

/** How far above the end of the interval the drawing goes. */
const above_ratio = 1.8;
/** Points that a curve is drawn by between two that were tried. */
const between = 12;

interface Place {
  readonly value: number;
  readonly growth: number;
}

export function profileChart(path: string, result: FitResult, end: number): HTMLElement {
  return html(
    'div',
    { class: 'one-curve' },
    html('h4', {}, pathWords(path), html('small', { class: 'key' }, path)),
    chart({
      label: `growth of the sum of squares against ${pathWords(path)}`,
      height: (width) => Math.max(200, Math.min(280, 0.3 * width)),
      draw: (width, height) => drawn(result, end, width, height),
      across: true,
    }),
  );
}

function drawn(result: FitResult, end: number, width: number, height: number): Drawing {
  const { profile, value, dimension, linear_interval } = result;
  const field: Field = { left: 44, right: width - 16, top: 28, bottom: height - 40 };
  const most = above_ratio * end * end;
  const tried = profile.map((point) => ({ value: point.value, growth: growthOf(point, value) }));
  const shown = tried.filter(({ growth }) => growth <= most);
  const values = [...shown.map((one) => one.value), ...(linear_interval ?? [])];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const air = 0.06 * (high - low || Math.abs(value) || 1);
  const x = scaleLinear([low - air, high + air], [field.left, field.right]);
  const y = scaleLinear([Math.min(0, ...shown.map(({ growth }) => growth)), most], [field.bottom, field.top]);
  const text = (v: number): string => formatQuantity(v, dimension, 4);
  const path = (places: readonly Place[], kind: string): SVGElement => {
    const along = line<Place>()
      .defined(({ growth }) => growth <= most)
      .x((place) => x(place.value))
      .y(({ growth }) => y(growth));
    return svg('path', { class: kind, fill: 'none', d: along(places) ?? '' });
  };
  const ticks = apart(
    x.ticks(6).map((v) => ({ at: x(v), words: text(v) })),
    field.right,
  );
  return {
    row: 0,
    children: [
      ...upward(
        field,
        y.ticks(4).map((v) => ({ at: y(v), words: number(v) })),
        'growth of the sum of squares, over the noise',
      ),
      ...across(field, ticks, '', false),
      svg('line', { class: 'limit', x1: field.left, x2: field.right, y1: y(end * end), y2: y(end * end) }),
      svg(
        'text',
        { class: 'on-lines', x: field.right - 4, y: y(end * end) - 5, 'text-anchor': 'end' },
        '95 %',
      ),
      svg('line', { class: 'steady', x1: x(value), x2: x(value), y1: field.top, y2: field.bottom }),
      ...(linear_interval === null
        ? []
        : [path(straight(value, linear_interval, end, x.domain()), 'before')]),
      path(curveOf(result), 'curve'),
      ...shown.map((place) =>
        svg('circle', { class: 'dot', cx: x(place.value), cy: y(place.growth), r: 3.5 }),
      ),
    ],
    stops: shown.map((place) => ({
      x: x(place.value),
      y: y(place.growth),
      words:
        place.value === value
          ? `${text(value)}: the value found`
          : `${text(place.value)}: the sum of squares grows by ${number(place.growth)}, an interval of 95 % ends at ${number(end * end)}`,
    })),
  };
}

/** Below 0 where moving away made the sum smaller: a staircase. */
function growthOf({ value, t }: { readonly value: number; readonly t: number }, found: number): number {
  return (value - found) * t < 0 ? -t * t : t * t;
}

/** Between the points that were tried the root grows evenly. */
function curveOf({ profile, value: found }: FitResult): readonly Place[] {
  return profile.flatMap((from, k) => {
    const to = profile[k + 1];
    if (to === undefined) return [{ value: from.value, growth: growthOf(from, found) }];
    return Array.from({ length: between }, (_, j) => {
      const part = j / between;
      const point = {
        value: from.value + part * (to.value - from.value),
        t: from.t + part * (to.t - from.t),
      };
      return { value: point.value, growth: growthOf(point, found) };
    });
  });
}

/** As if the model were straight: a parabola through both ends of the linear interval. */
function straight(
  found: number,
  [low, high]: readonly [number, number],
  end: number,
  [from = low, to = high]: readonly number[],
): readonly Place[] {
  const half = (high - low) / 2;
  return Array.from({ length: 81 }, (_, k) => {
    const value = from + (k / 80) * (to - from);
    return { value, growth: (end * (value - found)) ** 2 / half ** 2 };
  });
}
