import { BadInput, type Problem } from '../../problem.ts';
import type { LoadSpec } from '../../scenario/scenario.ts';
import type { Demand } from '../demand.ts';
import { type LoadContext, loadProblem } from '../load-problem.ts';
import { makeShape, Piecewise, type Shape } from '../piecewise.ts';
import { profilesDemand } from '../profiles-demand.ts';
import { Random } from '../random.ts';
import { TickRounder } from '../ticks.ts';
import { rangeOf } from './channel-quality.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { type Replay, replaySentences } from './replay-sentences.ts';
import type { Series } from './series.ts';
import { trapezoid_J } from './series.ts';
import { longestHold_s, playableSpan, stretchOf } from './stretch.ts';

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
 * that the stretch peaks at `peak_W` with all copies in step, or by `copies` where neither is given.
 *
 * Coincidence: `together` and `worst`: all sleds follow the same curve (`worst` says that this is the bound).
 * `spread`: sled k plays the stretch turned round by a seeded offset (the first sled by none), the seam closed by a
 * straight line one median interval long. Stamps are rounded to ticks. A run longer than the stretch, a stretch
 * outside the recording, an AC recording, or no scale are BadInput.
 */
export function scaleRecorded(load: RecordedLoad, spec: RecordedSpec, context: LoadContext): ScaledRecording {
  const { tick_s, duration_s, sleds } = context;
  const interval_s = 1 / load.statement.rate_median_Hz;
  const stretch = stretchOf(load.total, spec.from_s, spec.to_s, longestHold_s(interval_s));
  const problems = misfits(load, spec, context, stretch !== null);
  if (stretch === null || problems.length > 0) throw new BadInput(problems);

  const recordedPeak_W = rangeOf(stretch.series.power_W).max_W;
  const scale =
    spec.peak_W !== null ? spec.peak_W / recordedPeak_W : (spec.scale_ratio ?? spec.reading.copies!);
  const rounder = new TickRounder(tick_s);
  const corners = toTicks(stretch.series, scale, rounder);
  const spread = spec.reading.coincidence === 'spread';
  const length_ticks = corners.ticks[corners.ticks.length - 1]!;
  const turn_ticks = length_ticks + Math.max(1, Math.round(interval_s / tick_s));
  const shape: Shape = makeShape(corners.ticks, corners.values, spread ? turn_ticks : null);
  const delays = spread ? seededDelays(sleds.length, context.seed, turn_ticks) : [0];
  const profiles = delays.map((delay) => new Piecewise(shape, delay, tick_s));
  const demand = profilesDemand({
    profiles,
    profileOf: Int32Array.from(sleds, (_, k) => (spread ? k : 0)),
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks: Math.round(duration_s / tick_s),
    tick_s,
    period_ticks: null,
    rounding_s: rounder.rounding_s,
    bandwidth_Hz: load.statement.bandwidth_Hz,
  });
  const replay: Replay = {
    load,
    spec,
    scale,
    recordedPeak_W,
    held_s: stretch.held_s,
    before_J: scale * trapezoid_J(stretch.series.time_s, stretch.series.power_W),
    after_J: new Piecewise(shape, 0, tick_s).energy_J(0, length_ticks),
    rounding_s: rounder.rounding_s,
    duration_s,
    sumPeak_W: demand.peak_W,
    delays_s: delays.map((delay) => delay * tick_s),
    seam_W: Math.abs(corners.values[0]! - corners.values[corners.values.length - 1]!),
  };
  const sentences = replaySentences(replay);
  return { demand: { ...demand, remarks: sentences }, scale_ratio: scale, sentences };
}

function misfits(load: RecordedLoad, spec: RecordedSpec, context: LoadContext, inside: boolean): Problem[] {
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, mend: string) =>
    problems.push(loadProblem(context, key, { found, expected, mend }));
  const { from_s, to_s } = spec;
  const span = playableSpan(load);
  if (spec.reading.side === 'ac') {
    add(
      'reading.side',
      'ac, measured on the AC side',
      'dc: behind a power supply the load is already smoothed and cannot drive the DC bus',
      'record on the DC side, or at the devices, and write side: dc',
    );
  }
  if (from_s >= to_s) {
    add('from', `from ${from_s} s to ${to_s} s`, 'from before to', 'exchange them');
  } else if (!inside) {
    add(
      'to',
      `from ${from_s} s to ${to_s} s`,
      `a stretch of the recording, ${short(span.from_s)} s to ${short(span.to_s)} s`,
      `write from and to within ${short(span.from_s)} s and ${short(span.to_s)} s`,
    );
  } else if (context.duration_s > to_s - from_s) {
    add(
      'to',
      `a run of ${context.duration_s} s on a stretch of ${short(to_s - from_s)} s`,
      'a stretch that is at least as long as the run',
      `shorten duration to ${short(to_s - from_s)} s at most, or widen from and to (the recording has ${short(span.from_s)} s to ${short(span.to_s)} s)`,
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

/** Corners on ticks; of stamps that fall on one tick the first stays. */
function toTicks(series: Series, scale: number, rounder: TickRounder) {
  const ticks: number[] = [];
  const values: number[] = [];
  for (let i = 0; i < series.time_s.length; i++) {
    const tick = rounder.round(series.time_s[i]!);
    if (ticks.length > 0 && tick <= ticks[ticks.length - 1]!) continue;
    ticks.push(tick);
    values.push(scale * series.power_W[i]!);
  }
  return { ticks, values };
}

/** Offsets anywhere in one turn, drawn in the order of the sleds; the first sled has none. */
function seededDelays(count: number, seed: number, turn_ticks: number): number[] {
  const random = new Random(seed);
  return Array.from({ length: count }, (_, k) => (k === 0 ? 0 : Math.floor(random.uniform() * turn_ticks)));
}

function short(time_s: number): number {
  return Number(time_s.toFixed(3));
}
