/** A frequency response over one log axis: gain above, phase below, with the margins of a loop marked where they are read. */
import { area, line, type ScaleContinuousNumeric, scaleLinear, scaleLog } from 'd3';
import { marginSentence } from '../../src/studies/response/margin-words.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { html, svg } from '../dom.ts';
import { across, type Field, number, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';
import { endOf, gainFloor, shownPoints, wrapped } from './curve-points.ts';
import { marginMarks } from './margins.ts';

type Curve = ResponseReport['curves'][number];
type Point = ResponseReport['measured'][number];
type Loop = ResponseReport['loops'][number];
type Band = NonNullable<ResponseReport['over']>['bands'][number];

/** Of the gain, between the two, of the phase, of the axis below [px]. */
const [head, gainHeight, between, phaseHeight, foot] = [26, 180, 34, 120, 40] as const;
const left = 58;

/** `points`: what the user measured of this curve, as dots; `loop`: its margins, where it is a loop gain; `isStable`: no mode grows; `band`: between what it lies at the worst points. */
export function curveOf(
  curve: Curve,
  points: readonly Point[],
  loop: Loop | null,
  isStable: boolean,
  band: Band | null = null,
): HTMLElement {
  const { name, unit } = curve;
  return html(
    'div',
    { class: 'one-curve' },
    html('h4', {}, `${name}${unit === '' ? '' : `, ${unit}`}`),
    loop === null ? null : html('p', { class: 'note' }, `${loop.about}: ${marginSentence(loop, isStable)}`),
    leftOut(curve) === '' ? null : html('p', { class: 'note' }, leftOut(curve)),
    chart({
      label: `gain and phase of ${name} against frequency`,
      height: () => head + gainHeight + between + phaseHeight + foot,
      draw: (width) => drawn(curve, points, loop, band, width),
      across: true,
    }),
  );
}

/** What of the curve is not drawn, and why; '' where all is. */
function leftOut(curve: Curve): string {
  const [floor, end] = [gainFloor(curve), endOf(curve)];
  return [
    ...(floor === null ? [] : [`Gains below ${number(floor)} dB are not drawn.`]),
    ...(end === curve.frequency_Hz.at(-1) ? [] : [`Drawn up to ${number(end)} Hz, half the sampling rate.`]),
  ].join(' ');
}

function drawn(
  curve: Curve,
  measured: readonly Point[],
  loop: Loop | null,
  band: Band | null,
  width: number,
): Drawing {
  const shown = shownPoints(curve);
  const dots = measured.filter(({ frequency_Hz }) => frequency_Hz <= shown.at(-1)!.frequency_Hz);
  const gains = [...shown.flatMap(({ gain_dB }) => gain_dB ?? []), ...dots.map(({ gain_dB }) => gain_dB)];
  if (loop !== null) gains.push(0);
  if (band !== null) gains.push(...bandGains(band, shown.at(-1)!.frequency_Hz, Math.min(...gains)));
  const above: Field = { left, right: width - 14, top: head, bottom: head + gainHeight };
  const below: Field = {
    ...above,
    top: above.bottom + between,
    bottom: above.bottom + between + phaseHeight,
  };
  const x = scaleLog([shown[0]!.frequency_Hz, shown.at(-1)!.frequency_Hz], [above.left, above.right]);
  const gain = scaleLinear([Math.min(...gains), Math.max(...gains)], [above.bottom, above.top]).nice(5);
  const phase = scaleLinear([-180, 180], [below.bottom, below.top]);
  const decades = Array.from({ length: 9 }, (_, k) => 10 ** (k - 3)).filter(
    (f) => f >= x.domain()[0]! * 0.999 && f <= x.domain()[1]! * 1.001,
  );
  const ticks = decades.map((f) => ({ at: x(f), words: f.toLocaleString('en') }));
  return {
    row: 0,
    children: [
      ...across(above, ticks, '', true).filter((mark) => mark.tagName === 'line'),
      ...across(below, ticks, 'frequency, Hz', true),
      ...upward(
        above,
        gain.ticks(5).map((v) => ({ at: gain(v), words: number(v) })),
        'gain, dB',
      ),
      ...upward(
        below,
        [-180, -90, 0, 90, 180].map((v) => ({ at: phase(v), words: number(v) })),
        'phase, °',
      ),
      ...(band === null ? [] : [bandOf(band, x, gain)]),
      ...(loop === null ? [] : marginMarks(loop, x, gain, phase)),
      path(shown, x, ({ gain_dB }) => (gain_dB === null ? null : gain(gain_dB)), 'curve gain'),
      path(
        wrapped(shown),
        x,
        ({ phase_deg }) => (phase_deg === null ? null : phase(phase_deg)),
        'curve phase',
      ),
      ...dots.flatMap((point) => [
        dot(x(point.frequency_Hz), gain(point.gain_dB)),
        ...(point.error_deg === null
          ? []
          : [dot(x(point.frequency_Hz), phase(turned(point.model_deg + point.error_deg)))]),
      ]),
    ],
    stops: shown.map(({ frequency_Hz, gain_dB, phase_deg }) => ({
      x: x(frequency_Hz),
      y: gain_dB === null ? above.bottom : gain(gain_dB),
      words: `${number(frequency_Hz)} Hz: gain ${gain_dB === null ? 'below what is drawn' : `${number(gain_dB)} dB`}, phase ${number(turned(phase_deg))}°`,
    })),
  };
}

function path<P extends { readonly frequency_Hz: number }>(
  points: readonly P[],
  x: ScaleContinuousNumeric<number, number>,
  y: (point: P) => number | null,
  kind: string,
): SVGElement {
  const along = line<P>()
    .defined((point) => y(point) !== null)
    .x(({ frequency_Hz }) => x(frequency_Hz))
    .y((point) => y(point) ?? 0);
  return svg('path', { class: kind, fill: 'none', d: along(points) ?? '' });
}

/** What of a band the axis is made for: not below what of the curve is drawn by more than it spans. */
function bandGains({ frequency_Hz, low_dB, high_dB }: Band, last_Hz: number, lowest_dB: number): number[] {
  const gains = [...low_dB, ...high_dB].filter(
    (gain, k): gain is number => gain !== null && frequency_Hz[k % frequency_Hz.length]! <= last_Hz,
  );
  const reach_dB = 20;
  return gains.filter((gain) => gain >= lowest_dB - reach_dB);
}

/** Between the least and the most gain of the worst points, as far as it lies within what is drawn. */
function bandOf(
  { frequency_Hz, low_dB, high_dB }: Band,
  x: ScaleContinuousNumeric<number, number>,
  gain: ScaleContinuousNumeric<number, number>,
): SVGElement {
  const [lowest, highest] = gain.domain() as [number, number];
  const last = x.domain()[1]!;
  const within = (dB: number): number => gain(Math.max(lowest, Math.min(highest, dB)));
  const shape = area<number>()
    .defined((k) => low_dB[k] !== null && high_dB[k] !== null && frequency_Hz[k]! <= last)
    .x((k) => x(frequency_Hz[k]!))
    .y0((k) => within(low_dB[k] ?? lowest))
    .y1((k) => within(high_dB[k] ?? lowest));
  return svg('path', { class: 'worst-band', d: shape([...frequency_Hz.keys()]) ?? '' });
}

/** An angle within half a turn of 0. */
function turned(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}

function dot(cx: number, cy: number): SVGElement {
  return svg('circle', { class: 'measured', cx, cy, r: 3.5 });
}
