/**
 * The duration envelope of the bus: for every voltage level the longest single stay of any node beyond it,
 * against the stays that the limits forbid.
 */
import { axisBottom, axisLeft, scaleLinear, scaleLog, select } from 'd3';
import type { Bundle } from '../src/bundle/format.ts';
import type { Stays } from '../src/engine/result.ts';
import { html, svg } from './dom.ts';
import type { Lens } from './lens.ts';
import { duration, withUnit } from './numbers.ts';
import { axisText, gutter, size } from './sheet.ts';
import { type Ink, ink } from './theme.ts';

const height_px = 330;
const foot_px = 26;
const shortest_s = 20e-6;

interface Stay {
  readonly level_V: number;
  readonly longest_s: number;
  readonly node: string;
}

interface Forbidden {
  readonly limit_V: number;
  readonly stay_s: number;
  readonly side: 'lower' | 'upper';
}

export function showEnvelope(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  const { stays, window } = bundle.result;
  const { nominal_V } = bundle.scenario;
  const below = longest(stays, 'below_s').filter(({ level_V }) => level_V <= nominal_V);
  const above = longest(stays, 'above_s').filter(({ level_V }) => level_V >= nominal_V);
  const forbidden = forbiddenOf(bundle);
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const axes = svg('svg', { class: 'axis', height: height_px, 'aria-hidden': 'true' });
  const plot = html('div', { class: 'plot still', style: `height:${height_px}px` }, canvas, axes);
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'Bus voltage against duration'),
      html('p', {}, 'longest single stay of any node beyond a level; hatched: beyond the limits'),
    ),
    plot,
    html('p', { class: 'worst note' }, worst(below)),
  );
  if (stays.levels_V.length === 0) return;
  const values = [...stays.levels_V, ...forbidden.map(({ limit_V }) => limit_V)];
  const draw = (): void => {
    const width = Math.max(50, plot.clientWidth - gutter - 22);
    const longest_s = Math.max(2, 1.5 * (window.to_s - window.from_s));
    const x = scaleLog([shortest_s, longest_s], [0, width]).clamp(true);
    const y = scaleLinear([Math.min(...values) - 0.6, Math.max(...values) + 0.6], [height_px - foot_px, 6]);
    size(canvas, width, height_px);
    const pen = canvas.getContext('2d')!;
    pen.clearRect(0, 0, width, height_px);
    const ticks = y.ticks(7);
    pen.strokeStyle = ink('line');
    pen.beginPath();
    for (const v of ticks) {
      pen.moveTo(0, Math.round(y(v)) + 0.5);
      pen.lineTo(width, Math.round(y(v)) + 0.5);
    }
    pen.stroke();
    drawForbidden(pen, forbidden, x, y, width);
    stairs(pen, below, x, y, 'ink');
    stairs(pen, above, x, y, 'muted');
    const frame = select(axes).attr('width', gutter + width + 22);
    frame
      .selectAll<SVGGElement, null>('g.left')
      .data([null])
      .join('g')
      .attr('class', 'left')
      .attr('transform', `translate(${gutter},0)`)
      .call(
        axisLeft<number>(y)
          .tickValues(ticks)
          .tickSize(0)
          .tickPadding(8)
          .tickFormat((v) => axisText(v, 'V', ticks)),
      );
    frame
      .selectAll<SVGGElement, null>('g.foot')
      .data([null])
      .join('g')
      .attr('class', 'foot')
      .attr('transform', `translate(${gutter},${height_px - foot_px})`)
      .call(
        axisBottom<number>(x)
          .tickValues([1e-4, 1e-3, 1e-2, 0.1, 1, 10, 100].filter((t) => t < longest_s))
          .tickSize(5)
          .tickFormat(duration),
      );
  };
  lens.watch(({ span }) => {
    if (span) draw();
  });
}

/** Longest stay over all nodes and both tables, per level. */
function longest(stays: Stays, field: 'below_s' | 'above_s'): readonly Stay[] {
  const levels = stays.levels_V.length;
  return Array.from(stays.levels_V, (level_V, l) => {
    let best: Stay = { level_V, longest_s: 0, node: '' };
    stays.nodes.forEach((node, n) => {
      for (const table of [stays.normal, stays.carry]) {
        const own = table[field][n * levels + l]!;
        if (own > best.longest_s) best = { level_V, longest_s: own, node };
      }
    });
    return best;
  }).filter(({ longest_s }) => longest_s > 0);
}

function forbiddenOf({ report, scenario }: Bundle): readonly Forbidden[] {
  return report.findings.flatMap((finding) => {
    const row = scenario.limits.find(({ id }) => id === finding.id);
    if (row?.quantity !== 'bus-stay' || finding.limit === null || finding.verdict === 'not_applicable')
      return [];
    return [{ limit_V: finding.limit, stay_s: row.stay_s ?? 0, side: row.side }];
  });
}

type Scale = (value: number) => number;

/** What lies beyond a limit for longer than it allows: hatched, with the corner drawn. */
function drawForbidden(
  pen: CanvasRenderingContext2D,
  forbidden: readonly Forbidden[],
  x: Scale,
  y: Scale,
  width: number,
): void {
  const [top, bottom] = [6, height_px - foot_px];
  pen.save();
  pen.beginPath();
  for (const { limit_V, stay_s, side } of forbidden) {
    const left = stay_s <= shortest_s ? 0 : x(stay_s);
    const [from, to] = side === 'lower' ? [y(limit_V), bottom] : [top, y(limit_V)];
    pen.rect(left, from, width - left, to - from);
  }
  pen.clip();
  pen.strokeStyle = ink('fail');
  pen.globalAlpha = 0.28;
  pen.lineWidth = 1;
  pen.beginPath();
  for (let k = -height_px; k < width; k += 7) {
    pen.moveTo(k, height_px);
    pen.lineTo(k + height_px, 0);
  }
  pen.stroke();
  pen.restore();
  pen.save();
  pen.strokeStyle = ink('fail');
  pen.fillStyle = ink('fail');
  pen.font = '11px system-ui, sans-serif';
  pen.textAlign = 'right';
  pen.setLineDash([6, 4]);
  for (const side of ['lower', 'upper'] as const) {
    const corners = forbidden.filter((corner) => corner.side === side).sort((a, b) => a.stay_s - b.stay_s);
    pen.beginPath();
    corners.forEach(({ limit_V, stay_s }, k) => {
      const next = corners[k + 1];
      pen.lineTo(k === 0 ? 0 : x(Math.max(shortest_s, stay_s)), y(limit_V));
      pen.lineTo(next === undefined ? width : x(next.stay_s), y(limit_V));
    });
    pen.stroke();
  }
  pen.restore();
}

/** A level is left of the line exactly when no node stays beyond it for longer. */
function stairs(pen: CanvasRenderingContext2D, stays: readonly Stay[], x: Scale, y: Scale, tint: Ink): void {
  pen.save();
  pen.strokeStyle = ink(tint);
  pen.fillStyle = ink(tint);
  pen.lineWidth = 1.8;
  pen.beginPath();
  for (const { level_V, longest_s } of stays) pen.lineTo(x(Math.max(shortest_s, longest_s)), y(level_V));
  pen.stroke();
  for (const { level_V, longest_s } of stays) {
    pen.beginPath();
    pen.arc(x(Math.max(shortest_s, longest_s)), y(level_V), 3, 0, 7);
    pen.fill();
  }
  pen.restore();
}

/** The lowest level that any node reached, in words. */
function worst(below: readonly Stay[]): string {
  const lowest = below[0];
  if (lowest === undefined) return 'No node went below a level that is counted.';
  return `Lowest level reached: ${lowest.node} stays below ${withUnit(lowest.level_V, 'V')} for ${duration(Number(lowest.longest_s.toPrecision(3)))} at the longest.`;
}
