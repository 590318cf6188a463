/** Ramps of the AC power over 100 ms and 1 s against time, each against its limit where it is judged. */
import { joined, without } from '../../src/analysis/record/spans.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import type { Span } from '../../src/events/spans.ts';
import type { Frame } from '../frame.ts';
import { outsideRamps, type Shade } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { duration, withUnit } from '../numbers.ts';
import { strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import type { Ink } from '../theme.ts';
import { within } from './clip.ts';
import { drawLimits, type LimitLine } from './limit-lines.ts';
import { pinsOf } from './pins.ts';
import { type Ramps, rampPlace, rampsOver, rampsWithin, steepest } from './ramp-series.ts';
import { rampTable } from './ramp-table.ts';

const kinds = [
  { id: 'ac-ramp-100ms', window_s: 0.1, tint: 'copper' },
  { id: 'ac-ramp-1s', window_s: 1, tint: 'ink' },
] as const satisfies readonly { id: string; window_s: number; tint: Ink }[];

interface Curve extends Ramps {
  readonly id: string;
  readonly tint: Ink;
  readonly limit: number | null;
  readonly judged: readonly Span[];
  readonly shades: readonly Shade[];
}

export function rampsPanel(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const curves = kinds.flatMap((kind) => curveOf(kind, lens, bundle));
  const [first] = curves;
  if (first === undefined) return;
  const limits = limitsOf(curves);
  const whole = wholeRange(curves);
  makePanel(host, lens, record, {
    id: 'ramps',
    title: 'AC ramps',
    note: 'mean after a moment less mean before it, over the length of each; dotted: not judged',
    height: 110,
    unit: 'W/s',
    series: () => [],
    include: [],
    whole,
    range: (from, to) => extremes(curves, { from_s: record.edges_s[from]!, to_s: record.edges_s[to + 1]! }),
    shades: shadesOf(curves, whole),
    table: () => rampTable(curves),
    draw(frame) {
      drawLimits(frame, limits);
      for (const curve of curves) drawCurve(frame, curve);
    },
    pins: pinsOf(['panel-ramps'], bundle),
    pinned: ({ finding, time_s }) =>
      steepest(curves.find(({ id }) => id === finding.id) ?? first, time_s, time_s),
    rows: (bucket) =>
      curves.map((curve) => {
        const { tint, window_s, fits } = curve;
        const [from_s, to_s] = [record.edges_s[bucket]!, record.edges_s[bucket + 1]!];
        const told = to_s >= fits.from_s && from_s <= fits.to_s;
        return {
          mark: 'solid',
          tint,
          name: `over ${duration(window_s)}, steepest here`,
          value: told ? withUnit(steepest(curve, from_s, to_s), 'W/s') : '–',
        };
      }),
  });
}

function curveOf(
  { id, window_s, tint }: (typeof kinds)[number],
  lens: Lens,
  { report, result }: Bundle,
): Curve[] {
  const ramps = rampsOver(result.means, window_s);
  if (ramps === null) return [];
  const shades = outsideRamps(report, lens.whole_s, window_s);
  const finding = report.findings.find((one) => one.id === id);
  const limit = finding === undefined || finding.verdict === 'not_applicable' ? null : finding.limit;
  return [{ ...ramps, id, tint, limit, shades, judged: without(ramps.fits, shades) }];
}

/** Full where it is judged, dotted where it is not. */
function drawCurve(frame: Frame, curve: Curve): void {
  const { series, tint, judged, fits } = curve;
  const { stretch } = frame;
  const firstBucket = rampPlace(curve, stretch.from_s);
  const lastBucket = rampPlace(curve, stretch.to_s);
  const own = { ...frame, buckets: curve, stretch: { ...stretch, firstBucket, lastBucket } };
  within(frame, without(fits, judged), () => strokeTrace(own, series, { tint, width: 1, dash: [1, 3] }));
  within(frame, judged, () => strokeTrace(own, series, { tint, width: 1.5 }));
}

/** A limit of both is one line wherever either is judged; the words stand at the upper one. */
function limitsOf(curves: readonly Curve[]): readonly LimitLine[] {
  const values = [...new Set(curves.flatMap(({ limit }) => (limit === null ? [] : [limit])))];
  return values.flatMap((limit): LimitLine[] => {
    const those = curves.filter((curve) => curve.limit === limit);
    const spans = joined(those.flatMap(({ judged }) => judged));
    const over = those.map(({ window_s }) => duration(window_s)).join(' and ');
    const words = `at most ±${withUnit(limit, 'W/s')} over ${over}`;
    return [
      { value: limit, words, side: 'upper', spans },
      { value: -limit, words: '', side: 'lower', spans },
    ];
  });
}

/** Room for what is judged and for the limits: what is not judged may be far steeper and leave the panel. */
function wholeRange(curves: readonly Curve[]): [number, number] {
  const values = curves.flatMap((curve) => [
    ...(rampsWithin(curve, curve.judged) ?? []),
    curve.limit ?? 0,
    -(curve.limit ?? 0),
  ]);
  return [1.35 * Math.min(...values), 1.35 * Math.max(...values)];
}

/** Where no curve is judged; where some are, fainter. What leaves the panel there is told in numbers. */
function shadesOf(curves: readonly Curve[], [low, high]: readonly [number, number]): Shade[] {
  const judged = joined(curves.flatMap((curve) => curve.judged));
  const none = (curves[0]?.shades ?? []).flatMap(({ from_s, to_s, words }) =>
    without({ from_s, to_s }, judged).map((span) => {
      const [least, most] = extremes(curves, span);
      const beyond = [least < low ? least : null, most > high ? most : null]
        .filter((value) => value !== null)
        .map((value) => withUnit(value, 'W/s'));
      const reaches = beyond.length === 0 ? [] : [`${words[0]}, reaches ${beyond.join(' and ')}`];
      return { ...span, words: [...reaches, ...words], partly: false };
    }),
  );
  const some = curves.flatMap(({ shades, window_s }) =>
    shades.flatMap(({ from_s, to_s, words }) => {
      const short = words.at(-1)!;
      const own = [`${short}: not judged over ${duration(window_s)}`, short];
      return without({ from_s, to_s }, none).map((span) => ({ ...span, words: own, partly: true }));
    }),
  );
  return [...none, ...some];
}

function extremes(curves: readonly Curve[], span: Span): [number, number] {
  const ends = curves.flatMap((curve) => rampsWithin(curve, [span]) ?? []);
  return [Math.min(0, ...ends), Math.max(0, ...ends)];
}
