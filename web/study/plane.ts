/** Modes in the plane, with lines of equal damping; both axes on a scale that keeps slow and fast in sight. */
import { scaleLinear } from 'd3';
import { grows } from '../../src/studies/damping.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { html, svg } from '../dom.ts';

type Mode = ResponseReport['modes'][number];

const width = 720;
const height = 360;
const [left, right, top, foot] = [76, 14, 12, 34];

/** log(1 + |x|/1) with the sign of x: decades that pass through zero. */
function bent(x: number): number {
  return Math.sign(x) * Math.log10(1 + Math.abs(x));
}

const dampings = [0.05, 0.15, 0.3, 0.5, 0.7] as const;

export function planeOf(modes: readonly Mode[]): HTMLElement {
  const omega = (mode: Mode): number => 2 * Math.PI * mode.frequency_Hz;
  const low = Math.min(-10, ...modes.map((mode) => bent(mode.real_per_s)));
  const high = Math.max(0.5, ...modes.map((mode) => bent(mode.real_per_s) + 0.3));
  const fastest = Math.max(10, ...modes.map(omega));
  const x = scaleLinear([Math.max(-6.2, low), high], [left, width - right]);
  const y = scaleLinear([0, bent(fastest) * 1.04], [height - foot, top]);
  const lines = dampings.map((zeta, k) => {
    const points: string[] = [];
    for (let d = 0; d <= bent(fastest) + 0.01; d += 0.05) {
      const size = 10 ** d - 1;
      const [re, im] = [-zeta * size, Math.sqrt(1 - zeta * zeta) * size];
      if (bent(re) >= x.domain()[0]!) points.push(`${x(bent(re)).toFixed(1)},${y(bent(im)).toFixed(1)}`);
    }
    // Each label further up its line than the one before: side by side they would cover each other.
    const at = points[Math.floor((0.4 + 0.1 * k) * points.length)] ?? '0,0';
    const [tx, ty] = at.split(',').map(Number) as [number, number];
    return svg(
      'g',
      {},
      svg('polyline', { class: 'grid', fill: 'none', points: points.join(' ') }),
      svg('text', { x: tx + 4, y: ty + 4 }, `ζ ${zeta}`),
    );
  });
  const dots = modes.map((mode) => {
    const isGrowing = grows(mode);
    const [cx, cy] = [x(Math.max(x.domain()[0]!, bent(mode.real_per_s))), y(bent(omega(mode)))];
    const owners = mode.owners
      .slice(0, 3)
      .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
      .join(', ');
    const words = `${mode.real_per_s.toPrecision(3)} 1/s, ${mode.frequency_Hz.toPrecision(3)} Hz, damping ${mode.damping_ratio.toFixed(3)}, × ${mode.count}: ${owners}`;
    // A mode that grows is a square, a sampled one a ring: told apart without colour.
    const title = svg('title', {}, words);
    return isGrowing
      ? svg('rect', { class: 'bar broken', x: cx - 5, y: cy - 5, width: 10, height: 10 }, title)
      : svg('circle', { class: mode.sampled ? 'bar hollow' : 'bar', cx, cy, r: mode.sampled ? 5 : 4 }, title);
  });
  const xs = [-1e5, -1e4, -1e3, -100, -10, 0, 10].filter((v) => bent(v) >= x.domain()[0]! && bent(v) <= high);
  const ys = [0, 1, 10, 100, 1000, 1e4].filter((f) => bent(2 * Math.PI * f) <= y.domain()[1]!);
  const axes = [
    ...xs.map((v) =>
      svg('text', { x: x(bent(v)), y: height - 12, 'text-anchor': 'middle' }, `${v}`.replace('-', '−')),
    ),
    ...ys.map((f) =>
      svg('text', { x: left - 8, y: y(bent(2 * Math.PI * f)) + 4, 'text-anchor': 'end' }, `${f} Hz`),
    ),
    svg('line', { class: 'limit', x1: x(0), x2: x(0), y1: top, y2: height - foot }),
  ];
  const label = `${modes.length} modes: real part in 1/s across, frequency up; right of the line they grow`;
  return html(
    'div',
    { class: 'wide' },
    svg(
      'svg',
      { class: 'chart', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': label },
      ...lines,
      ...axes,
      ...dots,
    ) as unknown as Node,
  );
}
