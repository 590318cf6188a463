/** The course of a duty over its calendar: lines of one unit in a drawing, stretches marked. */
import { line, scaleLinear } from 'd3';
import { whenWords } from '../../src/studies/duty/paper.ts';
import type { DutyPoint } from '../../src/studies/duty/report.ts';
import { html, svg } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { across, type Field, number, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';

/** One line of a drawing. */
export interface CourseLine {
  readonly name: string;
  readonly of: (point: DutyPoint) => number | null;
}

export interface CourseDrawing {
  readonly title: string;
  readonly unit: string;
  /** What a unit of the axis is of the value: 100 for per cent. */
  readonly factor: number;
  readonly lines: readonly CourseLine[];
}

const dashes = ['', '7 4', '2 3'] as const;
const hour_s = 3600;

/** Null where the course has none of these values. */
export function courseChart(course: readonly DutyPoint[], asked: CourseDrawing): HTMLElement | null {
  const lines = asked.lines.filter(({ of }) => course.some((point) => of(point) !== null));
  if (lines.length === 0 || course.length < 2) return null;
  return html(
    'div',
    {},
    html('p', { class: 'legend' }, ...lines.map(({ name }, k) => legendOf(name, k))),
    chart({
      label: `${asked.title} against time`,
      height: (width) => Math.max(220, Math.min(320, 0.28 * width)),
      across: true,
      draw: (width, height) => drawn(course, { ...asked, lines }, width, height),
    }),
  );
}

function drawn(
  course: readonly DutyPoint[],
  { title, unit, factor, lines }: CourseDrawing,
  width: number,
  height: number,
): Drawing {
  const field: Field = { left: 56, right: width - 16, top: 28, bottom: height - 40 };
  const from_s = course[0]!.at_s;
  const hours = (point: DutyPoint): number => (point.at_s - from_s) / hour_s;
  const values = lines.flatMap(({ of }) => course.flatMap((point) => of(point) ?? []));
  const x = scaleLinear([0, hours(course.at(-1)!)], [field.left, field.right]);
  const y = scaleLinear(
    [factor * Math.min(...values), factor * Math.max(...values)],
    [field.bottom, field.top],
  ).nice(5);
  const begins = course.filter((point, k) => k > 0 && point.stretch !== course[k - 1]!.stretch);
  return {
    row: course.length,
    children: [
      ...upward(
        field,
        y.ticks(5).map((value) => ({ at: y(value), words: number(value) })),
        title,
      ),
      ...across(
        field,
        x.ticks(8).map((value) => ({ at: x(value), words: number(value) })),
        'h',
        false,
      ),
      ...namesOf(course, (point) => x(hours(point)), field),
      ...begins.map((point) =>
        svg('line', {
          class: 'steady',
          x1: x(hours(point)),
          x2: x(hours(point)),
          y1: field.top,
          y2: field.bottom,
        }),
      ),
      ...lines.map(({ of }, k) => {
        const path = line<DutyPoint>()
          .defined((point) => of(point) !== null)
          .x((point) => x(hours(point)))
          .y((point) => y(factor * of(point)!));
        return svg(
          'g',
          { class: `duty duty-${k}` },
          svg('path', {
            class: 'curve',
            fill: 'none',
            'stroke-dasharray': dashes[k % dashes.length]!,
            d: path(course) ?? '',
          }),
        );
      }),
    ],
    stops: lines.flatMap(({ name, of }) =>
      course.map((point) => {
        const value = of(point);
        return {
          x: x(hours(point)),
          y: y(factor * (value ?? 0)),
          words: `${whenWords(point.at_s - from_s)}, ${point.stretch}: ${name} ${withUnit(value, unit)}`,
        };
      }),
    ),
  };
}

/** A letter of the small type is about so wide [px]. */
const letter_px = 6.5;

/** The stretches by name over their parts of the drawing; those too short for theirs are named by what is pointed at. */
function namesOf(
  course: readonly DutyPoint[],
  x: (point: DutyPoint) => number,
  { top }: Field,
): SVGElement[] {
  const names = [...new Set(course.map(({ stretch }) => stretch))];
  return names.flatMap((name) => {
    const own = course.filter(({ stretch }) => stretch === name);
    const [left, right] = [x(own[0]!), x(own.at(-1)!)];
    if (right - left < letter_px * name.length + 8) return [];
    return [
      svg('text', { class: 'stretch', x: (left + right) / 2, y: top - 6, 'text-anchor': 'middle' }, name),
    ];
  });
}

function legendOf(name: string, k: number): HTMLElement {
  return html(
    'span',
    {},
    svg(
      'svg',
      { class: `chart duty duty-${k}`, viewBox: '0 0 32 8', 'aria-hidden': 'true' },
      svg('line', {
        class: 'curve',
        x1: 0,
        x2: 32,
        y1: 4,
        y2: 4,
        'stroke-dasharray': dashes[k % dashes.length]!,
      }),
    ),
    name,
  );
}
