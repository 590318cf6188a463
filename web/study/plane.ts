/** Modes in the plane, with lines of equal damping; both axes on a scale that keeps slow and fast in sight. */
import { type ScaleLinear, scaleLinear } from 'd3';
import { grows, leastDamping } from '../../src/studies/damping.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { svg } from '../dom.ts';
import { across, type Field, number, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';

type Mode = ResponseReport['modes'][number];
type Scale = ScaleLinear<number, number>;

/** log(1 + |x|/1) with the sign of x: decades that pass through zero. */
function bent(x: number): number {
  return Math.sign(x) * Math.log10(1 + Math.abs(x));
}

const asked: readonly number[] = Object.values(leastDamping);
const dampings = [...new Set([0.05, 0.5, 0.7, ...asked])].sort((a, b) => a - b);

export function planeOf(modes: readonly Mode[]): HTMLElement {
  // In the order of their frequency, as the arrow keys lead through them.
  const inOrder = [...modes].sort((a, b) => a.frequency_Hz - b.frequency_Hz || b.real_per_s - a.real_per_s);
  return chart({
    label: `${modes.length} modes: real part in 1/s across, frequency up; right of the line at 0 they grow`,
    height: (width) => Math.max(320, Math.min(480, 0.4 * width)),
    draw: (width, height) => drawn(inOrder, width, height),
  });
}

function drawn(modes: readonly Mode[], width: number, height: number): Drawing {
  const field: Field = { left: 58, right: width - 14, top: 26, bottom: height - 40 };
  const low = Math.min(-2, ...modes.map((mode) => bent(mode.real_per_s)));
  const high = Math.max(0.5, ...modes.map((mode) => bent(mode.real_per_s) + 0.3));
  const fastest = bent(Math.max(10, ...modes.map(omega)));
  const x = scaleLinear([Math.max(-6.2, low), high], [field.left, field.right]);
  const y = scaleLinear([0, fastest * 1.04], [field.bottom, field.top]);
  const reals = [-1e6, -1e5, -1e4, -1000, -100, -10, 0, 10, 100].filter(
    (v) => bent(v) >= x.domain()[0]! && bent(v) <= high,
  );
  const rates = [0, 1, 10, 100, 1000, 1e4].filter((f) => bent(2 * Math.PI * f) <= y.domain()[1]!);
  const stops = modes.map((mode) => ({
    x: x(Math.max(x.domain()[0]!, bent(mode.real_per_s))),
    y: y(bent(omega(mode))),
    words: wordsOf(mode),
  }));
  return {
    row: 0,
    stops,
    children: [
      ...across(
        field,
        reals.map((v) => ({ at: x(bent(v)), words: v.toLocaleString('en').replace('-', '−') })),
        'real part, 1/s',
        false,
      ),
      ...upward(
        field,
        rates.map((f) => ({ at: y(bent(2 * Math.PI * f)), words: f.toLocaleString('en') })),
        'frequency, Hz',
      ),
      ...dampings.map((damping, k) => dampingLine(damping, k, fastest, x, y)),
      svg('line', { class: 'limit', x1: x(0), x2: x(0), y1: field.top, y2: field.bottom }),
      ...modes.map((mode, k) => markOf(mode, stops[k]!)),
    ],
  };
}

/** A mode that grows is a square, a sampled one a ring: told apart without colour. */
function markOf(mode: Mode, { x, y }: { readonly x: number; readonly y: number }): SVGElement {
  if (grows(mode))
    return svg('rect', { class: 'mode bar broken', x: x - 5, y: y - 5, width: 10, height: 10 });
  const kind = mode.sampled ? 'mode bar hollow' : 'mode bar';
  return svg('circle', { class: kind, cx: x, cy: y, r: mode.sampled ? 5 : 4 });
}

function dampingLine(damping: number, k: number, fastest: number, x: Scale, y: Scale): SVGElement {
  const points: [number, number][] = [];
  for (let decade = 0; decade <= fastest + 0.01; decade += 0.05) {
    const size = 10 ** decade - 1;
    const [re, im] = [bent(-damping * size), bent(Math.sqrt(1 - damping * damping) * size)];
    if (re >= x.domain()[0]!) points.push([x(re), y(im)]);
  }
  // Each label further up its line than the one before: side by side they would cover each other.
  const [tx, ty] = points[Math.floor((0.42 + 0.09 * k) * points.length)]!;
  const isAsked = asked.includes(damping);
  return svg(
    'g',
    {},
    svg('polyline', {
      class: isAsked ? 'damping asked' : 'damping',
      fill: 'none',
      points: points.map(([px, py]) => `${px.toFixed(1)},${py.toFixed(1)}`).join(' '),
    }),
    svg(
      'text',
      { class: 'on-lines', x: tx - 6, y: ty + 4, 'text-anchor': 'end' },
      `${k === 0 ? 'damping ' : ''}${damping}`,
    ),
  );
}

function omega({ frequency_Hz }: Mode): number {
  return 2 * Math.PI * frequency_Hz;
}

function wordsOf(mode: Mode): string {
  const owners = mode.owners
    .slice(0, 3)
    .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
    .join(', ');
  const swing =
    mode.frequency_Hz > 0
      ? `${number(mode.frequency_Hz)} Hz, damping ${number(mode.damping_ratio)}`
      : 'no swing';
  return `Real part ${number(mode.real_per_s)} 1/s, ${swing}${mode.count > 1 ? `, ${mode.count} alike` : ''}: ${owners}`;
}
