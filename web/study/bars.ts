/** Two drawings of a spread: how often which value came out, and what it hangs on. */
import { scaleLinear } from 'd3';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { html, svg } from '../dom.ts';

const width = 720;

/** Counts per bin; what lies below 0 headroom is hatched as well as coloured. */
export function histogramOf({ histogram, of }: SpreadReport): HTMLElement {
  const { edges, counts } = histogram;
  const height = 220;
  const [left, bottom] = [46, 30];
  const low = edges[0]!;
  const high = edges.at(-1)!;
  const x = scaleLinear([low, high === low ? low + 1e-9 : high], [left, width - 10]);
  const y = scaleLinear([0, Math.max(...counts)], [height - bottom, 10]).nice();
  const ticks = x.ticks(7);
  // As many places as tell one tick from the next.
  const apart = 100 * ((ticks[1] ?? 1) - (ticks[0] ?? 0));
  const places = Math.min(6, Math.max(0, -Math.floor(Math.log10(apart) + 1e-9)));
  const words = (value: number): string =>
    of === 'headroom' || of.endsWith('_ratio')
      ? `${(100 * value).toFixed(places).replace('-', '−')} %`
      : String(Number(value.toPrecision(4)));
  const bars = counts.map((count, k) => {
    const [from, to] = [x(edges[k]!), counts.length === 1 ? width - 10 : x(edges[k + 1]!)];
    const broken = of === 'headroom' && edges[k]! < 0;
    return svg(
      'rect',
      {
        class: broken ? 'bar broken' : 'bar',
        x: from + 0.5,
        y: y(count),
        width: Math.max(1, to - from - 1),
        height: height - bottom - y(count),
      },
      svg('title', {}, `${words(edges[k]!)} to ${words(edges[k + 1] ?? high)}: ${count}`),
    );
  });
  const xs = ticks.map((tick) =>
    svg(
      'g',
      {},
      svg('line', { x1: x(tick), x2: x(tick), y1: height - bottom, y2: height - bottom + 4 }),
      svg('text', { x: x(tick), y: height - 10, 'text-anchor': 'middle' }, words(tick)),
    ),
  );
  const ys = y
    .ticks(4)
    .map((tick) =>
      svg(
        'g',
        {},
        svg('line', { class: 'grid', x1: left, x2: width - 10, y1: y(tick), y2: y(tick) }),
        svg('text', { x: left - 6, y: y(tick) + 4, 'text-anchor': 'end' }, String(tick)),
      ),
    );
  const limit =
    of === 'headroom' && low < 0 && high > 0
      ? [svg('line', { class: 'limit', x1: x(0), x2: x(0), y1: 6, y2: height - bottom })]
      : [];
  return drawing(`how often which ${of} came out`, height, [...ys, ...bars, ...xs, ...limit]);
}

/** Rank correlations as bars to both sides; those within chance are hollow. */
export function tornadoOf({ sensitivity, noise, of }: SpreadReport): HTMLElement {
  const rows = sensitivity.slice(0, 15);
  const step = 24;
  const height = rows.length * step + 30;
  const middle = 470;
  const x = scaleLinear([-1, 1], [middle - 230, middle + 230]);
  const marks = [-noise, noise].map((value) =>
    svg('line', { class: 'grid', x1: x(value), x2: x(value), y1: 0, y2: height - 26 }),
  );
  const bars = rows.map(({ path, rank_correlation: r, clear }, k) => {
    const y = k * step + 4;
    return svg(
      'g',
      {},
      svg('text', { x: middle - 240, y: y + 12, 'text-anchor': 'end' }, path),
      svg('rect', {
        class: clear ? 'bar' : 'bar hollow',
        x: Math.min(x(0), x(r)),
        y,
        width: Math.max(1, Math.abs(x(r) - x(0))),
        height: step - 8,
      }),
      svg(
        'text',
        { x: r < 0 ? x(r) - 5 : x(r) + 5, y: y + 12, 'text-anchor': r < 0 ? 'end' : 'start' },
        r.toFixed(2).replace('-', '−'),
      ),
    );
  });
  const axis = [-1, -0.5, 0, 0.5, 1].map((tick) =>
    svg('text', { x: x(tick), y: height - 8, 'text-anchor': 'middle' }, String(tick).replace('-', '−')),
  );
  return drawing(`rank correlation of each drawn value with ${of}`, height, [...marks, ...bars, ...axis]);
}

function drawing(label: string, height: number, children: readonly SVGElement[]): HTMLElement {
  return html(
    'div',
    { class: 'wide' },
    svg(
      'svg',
      { class: 'chart', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': label },
      ...children,
    ) as unknown as Node,
  );
}
