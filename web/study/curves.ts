/** A frequency response as two drawings over one log axis: gain in dB, phase in degrees. */
import { line, scaleLinear, scaleLog } from 'd3';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { html, svg } from '../dom.ts';

type Curve = ResponseReport['curves'][number];
type Point = ResponseReport['measured'][number];

const width = 720;
const height = 250;
const [left, right] = [60, 12];
const gainFrom = [10, 140] as const;
const phaseFrom = [158, 226] as const;

/** `points`: what the user measured of this curve, as dots. */
export function curveOf(
  { name, unit, frequency_Hz, gain_dB, phase_deg }: Curve,
  points: readonly Point[] = [],
): HTMLElement {
  const low = frequency_Hz[0]!;
  const high = frequency_Hz.at(-1)!;
  const x = scaleLog([low, high], [left, width - right]);
  const gains = [...gain_dB.filter((value) => value !== null), ...points.map((point) => point.gain_dB)];
  const gain = scaleLinear([Math.min(...gains), Math.max(...gains)], [gainFrom[1], gainFrom[0]]).nice(4);
  const phase = scaleLinear(
    [Math.min(...phase_deg), Math.max(...phase_deg)],
    [phaseFrom[1], phaseFrom[0]],
  ).nice(3);
  const decades = Array.from({ length: 8 }, (_, k) => 10 ** (k - 2)).filter((f) => f >= low && f <= high);
  const grid = [
    ...decades.map((f) =>
      svg('line', { class: 'grid', x1: x(f), x2: x(f), y1: gainFrom[0], y2: phaseFrom[1] }),
    ),
    ...gain.ticks(5).map((v) => mark(gain(v), `${v} dB`)),
    ...phase.ticks(3).map((v) => mark(phase(v), `${v}°`)),
    ...decades.map((f) => svg('text', { x: x(f), y: height - 8, 'text-anchor': 'middle' }, `${f} Hz`)),
  ];
  const places = frequency_Hz.map((_, k) => k);
  const draw = (at: (k: number) => number | null, dashed: boolean): SVGElement =>
    svg('path', {
      class: dashed ? 'curve dashed' : 'curve',
      fill: 'none',
      d:
        line<number>()
          .defined((k) => at(k) !== null)
          .x((k) => x(frequency_Hz[k]!))
          .y((k) => at(k) ?? 0)(places) ?? '',
    });
  const isLoop = /loop/.test(name);
  const zero =
    isLoop && gain.domain()[0]! < 0 && gain.domain()[1]! > 0
      ? [svg('line', { class: 'limit', x1: left, x2: width - right, y1: gain(0), y2: gain(0) })]
      : [];
  return html(
    'div',
    { class: 'wide' },
    html('h4', {}, `${name}${unit === '' ? '' : `, ${unit}`}`),
    svg(
      'svg',
      {
        class: 'chart',
        viewBox: `0 0 ${width} ${height}`,
        role: 'img',
        'aria-label': `gain and phase of ${name}`,
      },
      ...grid,
      ...zero,
      draw((k) => {
        const value = gain_dB[k] ?? null;
        return value === null ? null : gain(value);
      }, false),
      draw((k) => phase(phase_deg[k]!), true),
      ...points.flatMap((point) => [
        dot(x(point.frequency_Hz), gain(point.gain_dB)),
        // On the turn of the curve: a measured angle is one of many.
        ...(point.error_deg === null
          ? []
          : [dot(x(point.frequency_Hz), phase(point.model_deg + point.error_deg))]),
      ]),
    ) as unknown as Node,
  );
}

function dot(cx: number, cy: number): SVGElement {
  return svg('circle', { class: 'measured', cx, cy, r: 3.5 });
}

function mark(y: number, words: string): SVGElement {
  return svg(
    'g',
    {},
    svg('line', { class: 'grid', x1: left, x2: width - right, y1: y, y2: y }),
    svg('text', { x: left - 8, y: y + 4, 'text-anchor': 'end' }, words.replace('-', '−')),
  );
}
