/** Pulsed over steady rating against duty, a line for each period, with the steady load and common practice. */
import { line, scaleLinear } from 'd3';
import { commonPulsedRatio } from '../../src/studies/rating/judge.ts';
import type { CurvePoint } from '../../src/studies/rating/report.ts';
import { html, svg } from '../dom.ts';

const width = 720;
const height = 300;
const [left, right, top, bottom] = [60, 190, 12, 44] as const;
/** Dashes tell the lines apart where colours do not. */
const dashes = ['', '7 4', '2 3', '9 3 2 3'] as const;

/** Null where duties are no row of numbers to draw along. */
export function dutyCurve(curve: readonly CurvePoint[]): HTMLElement | null {
  const points = curve.flatMap(({ duty, period, pulsed_over_steady_ratio }) => {
    const duty_ratio = dutyOf(duty);
    return duty_ratio === null || pulsed_over_steady_ratio === null
      ? []
      : [{ period, duty_ratio, ratio: pulsed_over_steady_ratio }];
  });
  const duties = [...new Set(points.map(({ duty_ratio }) => duty_ratio))].sort((a, b) => a - b);
  if (duties.length < 2) return null;
  const ratios = points.map(({ ratio }) => ratio);
  const x = scaleLinear([duties[0]!, duties.at(-1)!], [left, width - right]);
  const y = scaleLinear(
    [Math.min(commonPulsedRatio, ...ratios) - 0.03, Math.max(1, ...ratios) + 0.03],
    [height - bottom, top],
  ).nice(5);
  const periods = [...new Set(points.map(({ period }) => period))];
  const lines = periods.map((period, k) => {
    const own = points.filter((point) => point.period === period).sort((a, b) => a.duty_ratio - b.duty_ratio);
    const path = line<(typeof own)[number]>()
      .x(({ duty_ratio }) => x(duty_ratio))
      .y(({ ratio }) => y(ratio));
    return svg(
      'g',
      { class: `duty duty-${k % dashes.length}` },
      svg('path', {
        class: 'curve',
        fill: 'none',
        'stroke-dasharray': dashes[k % dashes.length]!,
        d: path(own) ?? '',
      }),
      ...own.map(({ duty_ratio, ratio }) =>
        svg('circle', { class: 'dot', cx: x(duty_ratio), cy: y(ratio), r: 3 }),
      ),
    );
  });
  const legend = periods.map((period, k) => {
    const at = top + 12 + 20 * k;
    return svg(
      'g',
      { class: `duty duty-${k % dashes.length}` },
      svg('line', {
        class: 'curve',
        x1: width - right + 24,
        x2: width - right + 56,
        y1: at,
        y2: at,
        'stroke-dasharray': dashes[k % dashes.length]!,
      }),
      svg('text', { x: width - right + 64, y: at + 4 }, `period ${period}`),
    );
  });
  const level = (value: number, words: string, word: string): SVGElement =>
    svg(
      'g',
      {},
      svg('line', { class: word, x1: left, x2: width - right, y1: y(value), y2: y(value) }),
      svg('text', { x: width - right + 8, y: y(value) + 4 }, words),
    );
  return html(
    'div',
    { class: 'wide' },
    svg(
      'svg',
      {
        class: 'chart',
        viewBox: `0 0 ${width} ${height}`,
        role: 'img',
        'aria-label': 'pulsed relative to steady rating, against duty',
      },
      ...y
        .ticks(5)
        .map((value) =>
          svg(
            'g',
            {},
            svg('line', { class: 'grid', x1: left, x2: width - right, y1: y(value), y2: y(value) }),
            svg(
              'text',
              { x: left - 8, y: y(value) + 4, 'text-anchor': 'end' },
              `${Math.round(100 * value)} %`,
            ),
          ),
        ),
      ...duties.map((duty) =>
        svg(
          'text',
          { x: x(duty), y: height - bottom + 18, 'text-anchor': 'middle' },
          `${Number((100 * duty).toPrecision(3))} %`,
        ),
      ),
      svg(
        'text',
        { x: (left + width - right) / 2, y: height - 6, 'text-anchor': 'middle' },
        'across: duty; up: largest high level relative to the steady rating',
      ),
      level(1, 'steady rating', 'steady'),
      level(commonPulsedRatio, 'common practice, 5/6', 'limit'),
      ...lines,
      ...legend,
    ) as unknown as Node,
  );
}

/** `30 %` or `0.3` as a share; null for anything else. */
function dutyOf(text: string): number | null {
  const found = /^([\d.]+)\s*(%?)$/.exec(text.trim());
  return found === null ? null : Number(found[1]) / (found[2] === '%' ? 100 : 1);
}
