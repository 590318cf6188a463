import { BadInput, type Problem } from '../../base/problem.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { Series } from '../../samples/series.ts';
import { trapezoid_J } from '../../samples/series.ts';
import type { LoadSpec } from '../../scenario/scenario.ts';
import type { Demand } from '../demand.ts';
import { type LoadContext, loadProblem } from '../load-problem.ts';
import { makeShape, Piecewise, type PiecewiseShape } from '../piecewise.ts';
import { profilesDemand } from '../profiles-demand.ts';
import { Random } from '../random.ts';
import { TickRounder } from '../ticks.ts';
import { inventedRatio, longestWhole, mostInvented_ratio } from './invented.ts';
import { playedOf } from './played.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { type Replay, replaySentences } from './replay-sentences.ts';
import { openSeam } from './seam.ts';
import { sharpCorners } from './sharp-corners.ts';
import { covers, longestHold_s, peakWithin, playableSpan, type Stretch, stretchOf } from './stretch.ts';

export type RecordedSpec = Extract<LoadSpec, { kind: 'recorded' }>;

export interface ScaledRecording {
  readonly demand: Demand;
  /** Cabinet power over recorded power. */
  readonly scale_ratio: number;
  /** For the report: source, bandwidth, scale, coincidence, edits, in plain sentences. */
  readonly sentences: readonly string[];
}

/**
 * Plays a stretch of a recording as the cabinet's load. The recorded total is multiplied by `scale_ratio`, or so
 * that the stretch peaks at `peak_W` with all copies in step, or by `copies` where neither is given. Between
 * samples it is read `smooth` or `sharp`; `loop` plays it again and again if its ends meet.
 *
 * Coincidence: `together` and `worst`: all sleds follow the same curve (`worst` says that this is the bound).
 * `spread`: sled k plays the stretch turned round by a seeded offset (the first sled by none), the seam closed by a
 * straight line one median interval long. Stamps are rounded to ticks. A run longer than the stretch, a stretch
 * outside the recording, an AC recording that was not accepted, ends that do not meet, or no scale are BadInput.
 */
export function scaleRecorded(load: RecordedLoad, spec: RecordedSpec, context: LoadContext): ScaledRecording {
  const { tick_s, duration_s, sleds } = context;
  const interval_s = 1 / load.statement.rate_median_Hz;
  const hold_s = longestHold_s(interval_s);
  const turns = spec.loop || spec.reading.coincidence === 'spread';
  // A run that plays on reads no more than its own length; what turns round is read whole.
  const end_s = turns ? spec.to_s : Math.min(spec.to_s, spec.from_s + duration_s + 2 * interval_s);
  const inside = covers(load.total, spec.from_s, spec.to_s, hold_s);
  const stretch = inside ? stretchOf(load.total, spec.from_s, end_s, hold_s) : null;
  const problems = misfits(load, spec, context, stretch);
  if (stretch === null || problems.length > 0) throw new BadInput(problems);

  const recordedPeak_W = peakWithin(load.total, spec.from_s, spec.to_s);
  const scale =
    spec.peak_W !== null ? spec.peak_W / recordedPeak_W : (spec.scale_ratio ?? spec.reading.copies!);
  const played = stretch.series;
  const read = spec.edges === 'sharp' ? sharpCorners(played, spec.edge_s) : played;
  const rounder = new TickRounder(tick_s);
  const corners = toTicks(read, scale, rounder);
  const length_ticks = corners.ticks[corners.ticks.length - 1]!;
  const turn_ticks = length_ticks + Math.max(1, Math.round(interval_s / tick_s));
  const shape: PiecewiseShape = makeShape(corners.ticks, corners.values, turns ? turn_ticks : null);
  const spread = spec.reading.coincidence === 'spread';
  const delays = spread ? seededDelays(sleds.length, context.seed, turn_ticks) : [0];
  const profiles = delays.map((delay) => new Piecewise(shape, delay, tick_s));
  const demand = profilesDemand({
    profiles,
    profileOf: Int32Array.from(sleds, (_, k) => (spread ? k : 0)),
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks: Math.round(duration_s / tick_s),
    tick_s,
    period_ticks: spec.loop ? turn_ticks : null,
    rounding_s: rounder.rounding_s,
    bandwidth_Hz: load.statement.bandwidth_Hz,
  });
  const replay: Replay = {
    load,
    spec,
    scale,
    recordedPeak_W,
    held_s: stretch.held_s,
    before_J: scale * trapezoid_J(played.time_s, played.power_W),
    after_J: new Piecewise(shape, 0, tick_s).energy_J(0, length_ticks),
    rounding_s: rounder.rounding_s,
    duration_s,
    sumPeak_W: demand.peak_W,
    delays_s: delays.map((delay) => delay * tick_s),
    seam_W: Math.abs(corners.values[0]! - corners.values[corners.values.length - 1]!),
    played: playedOf(load, spec, duration_s),
  };
  const sentences = replaySentences(replay);
  return { demand: { ...demand, remarks: sentences }, scale_ratio: scale, sentences };
}

function misfits(
  load: RecordedLoad,
  spec: RecordedSpec,
  context: LoadContext,
  stretch: Stretch | null,
): Problem[] {
  const inside = stretch !== null;
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, mend: string) =>
    problems.push(loadProblem(context, key, { found, expected, mend }));
  const { from_s, to_s } = spec;
  const span = playableSpan(load);
  // Said in the words the user has: options, or lines of a file.
  const typed = context.origins.get('load.file')?.line === 0;
  if (spec.reading.side === 'ac' && !spec.reading.accept_ac) {
    add(
      'reading.side',
      'ac, measured on the AC side',
      'dc: behind a power supply the load is already smoothed and cannot drive the DC bus',
      `record on the DC side, or at the devices; or accept it (${typed ? '--accept-ac' : 'accept_ac: true'}) for what is slower than a power supply filters`,
    );
  }
  if (from_s >= to_s) {
    add(
      'from',
      typed ? `a start at ${from_s} s` : `from ${from_s} s to ${to_s} s`,
      typed ? `a start before the recording's end, ${short(to_s)} s` : 'from before to',
      typed ? 'start earlier' : 'exchange them',
    );
  } else if (!inside) {
    add(
      'to',
      `from ${from_s} s to ${to_s} s`,
      `a stretch of the recording, ${short(span.from_s)} s to ${short(span.to_s)} s`,
      `write from and to within ${short(span.from_s)} s and ${short(span.to_s)} s`,
    );
  } else if (context.duration_s > to_s - from_s && !spec.loop) {
    add(
      'to',
      `a run of ${context.duration_s} s on a stretch of ${short(to_s - from_s)} s`,
      'a stretch that is at least as long as the run',
      typed
        ? `shorten the run (--set duration="${shortest(to_s - from_s)} s")${from_s > span.from_s ? ', start earlier (--from)' : ''}, or play it again and again (--loop)`
        : `shorten duration to ${short(to_s - from_s)} s at most, loop it (loop: true), or widen from and to (the recording has ${short(span.from_s)} s to ${short(span.to_s)} s)`,
    );
  }
  if (inside) problems.push(...mostlyInvented(load, spec, context));
  const seam = spec.loop && stretch !== null ? openSeam(stretch.series) : null;
  if (seam !== null) {
    add(
      'loop',
      `ends that are ${formatQuantity(seam.seam_W, 'power', 3)} apart, more than 5 % of the stretch's swing and than the recording usually moves between two samples`,
      'a stretch whose ends meet, so that the seam is no edge of its own',
      seam.better_s === null
        ? `${typed ? 'start elsewhere (--from), or end elsewhere (--set load.to=)' : 'move from or to'}: no end in the second half of the stretch meets its start`
        : `${typed ? `end it by --set load.to="${short(from_s + seam.better_s)} s"` : `write to: ${short(from_s + seam.better_s)} s`}, where the power is nearest to that at the start`,
    );
  }
  if (spec.peak_W !== null && spec.scale_ratio !== null) {
    add('peak', 'both peak and scale', 'one of them', 'leave one out');
  } else if (spec.peak_W === null && spec.scale_ratio === null && spec.reading.copies === null) {
    add('peak', 'no scale', 'a peak, a scale or a number of copies', 'write for example peak: 200 kW');
  }
  if (spec.peak_W !== null && inside && !(load.statement.total.max_W > 0)) {
    add(
      'peak',
      'a recording of no power at all',
      'power above 0 to scale',
      'give scale or another recording',
    );
  }
  return problems;
}

/** What is judged must have been recorded, most of it; what turns round is played whole. */
function mostlyInvented(load: RecordedLoad, spec: RecordedSpec, context: LoadContext): Problem[] {
  const turns = spec.loop || spec.reading.coincidence === 'spread';
  const from_s = turns ? spec.from_s : spec.from_s + context.warm_up_s;
  const to_s = turns ? spec.to_s : Math.min(spec.to_s, spec.from_s + context.duration_s);
  if (!(from_s < to_s)) return [];
  const ratio = inventedRatio(load, from_s, to_s);
  if (ratio <= mostInvented_ratio) return [];
  const whole = longestWhole(load);
  return [
    loadProblem(context, 'from', {
      found: `a judged stretch from ${short(from_s)} s to ${short(to_s)} s of which ${formatPercent(ratio, 3)} was never recorded: gaps, bridged by straight lines`,
      expected: `a stretch of which at least ${formatPercent(1 - mostInvented_ratio)} was recorded: beyond that the bridge is judged, not the load`,
      mend: `start elsewhere: the recording is whole from ${short(whole.from_s)} s to ${short(whole.to_s)} s`,
    }),
  ];
}

/** Corners on ticks; of stamps that fall on one tick the first stays. */
function toTicks(series: Series, scale: number, rounder: TickRounder) {
  const n = series.time_s.length;
  const ticks = new Float64Array(n);
  const values = new Float64Array(n);
  let kept = 0;
  for (let i = 0; i < n; i++) {
    const tick = rounder.round(series.time_s[i]!);
    if (kept > 0 && tick <= ticks[kept - 1]!) continue;
    ticks[kept] = tick;
    values[kept] = scale * series.power_W[i]!;
    kept++;
  }
  return { ticks: ticks.subarray(0, kept), values: values.subarray(0, kept) };
}

/** Offsets anywhere in one turn, drawn in the order of the sleds; the first sled has none. */
function seededDelays(count: number, seed: number, turn_ticks: number): number[] {
  const random = new Random(seed);
  return Array.from({ length: count }, (_, k) => (k === 0 ? 0 : Math.floor(random.uniform() * turn_ticks)));
}

/** Rounded down: a run of this length must fit. */
function shortest(time_s: number): number {
  return Math.floor(10 * time_s) / 10;
}

function short(time_s: number): number {
  return Number(time_s.toFixed(3));
}
