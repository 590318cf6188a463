/** How often which value came out of a spread, with the limit and the median marked. */
import { scaleLinear } from 'd3';
import { metricWords } from '../../src/analysis/words/metric-words.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { svg } from '../dom.ts';
import { wholePercent, withUnit } from '../numbers.ts';
import { across, type Field, number, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';

/** What is counted, as people read it, and its unit. */
export function ofWords(of: string): { readonly words: string; readonly unit: string } {
  if (of === 'headroom') return { words: 'tightest headroom', unit: 'ratio' };
  const [, words, unit] = metricWords.find(([metric]) => metric === of) ?? [of, of, ''];
  return { words, unit };
}

/** `chosen`: told the bar that is chosen. */
export function histogramOf(report: SpreadReport, chosen: (bar: number) => void): HTMLElement {
  return chart({
    label: `how often which ${ofWords(report.of).words} came out`,
    height: (width) => Math.max(240, Math.min(320, 0.3 * width)),
    draw: (width, height) => drawn(report, width, height),
    across: true,
    chosen,
  });
}

function drawn(
  { histogram: { edges, counts }, of, runs }: SpreadReport,
  width: number,
  height: number,
): Drawing {
  const { words, unit } = ofWords(of);
  const field: Field = { left: 40, right: width - 16, top: 28, bottom: height - 40 };
  const [low, high] = [edges[0]!, edges.at(-1)!];
  // All samples alike: one bar over the whole width.
  const x = scaleLinear([low, high === low ? low + 1e-9 : high], [field.left, field.right]);
  const y = scaleLinear([0, Math.max(...counts)], [field.bottom, field.top]).nice();
  const text = (value: number): string => (of === 'headroom' ? wholePercent(value) : withUnit(value, unit));
  const places = counts.map((count, k) => {
    const [from, to] = [x(edges[k]!), counts.length === 1 ? field.right : x(edges[k + 1]!)];
    return { count, from, to, isBeyond: of === 'headroom' && edges[k]! < 0 };
  });
  const limit = of === 'headroom' && low < 0 && high > 0 ? [limitAt(x(0), field)] : [];
  return {
    row: 0,
    children: [
      ...upward(
        field,
        y
          .ticks(4)
          .filter((count) => Number.isInteger(count))
          .map((count) => ({ at: y(count), words: number(count) })),
        'samples',
      ),
      ...places.map(({ count, from, to, isBeyond }) =>
        svg('rect', {
          class: isBeyond ? 'bar broken' : 'bar',
          x: from + 0.5,
          y: y(count),
          width: Math.max(1, to - from - 1),
          height: field.bottom - y(count),
        }),
      ),
      ...across(
        field,
        (high === low ? [low] : x.ticks(7)).map((value) => ({ at: x(value), words: text(value) })),
        words,
        false,
      ),
      ...limit,
    ],
    stops: places.map(({ count, from, to }, k) => ({
      x: (from + to) / 2,
      y: y(count),
      words: `${text(edges[k]!)} to ${text(edges[k + 1] ?? high)}: ${count} of ${runs} samples`,
    })),
  };
}

function limitAt(x: number, { top, bottom }: Field): SVGElement {
  return svg(
    'g',
    {},
    svg('line', { class: 'limit', x1: x, x2: x, y1: top - 6, y2: bottom }),
    svg('text', { x: x + 6, y: top - 2 }, 'limit'),
  );
}
