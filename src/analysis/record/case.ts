/** One run under judgement: scenario, demand and result, with what every reading asks of them. */
import type { ChannelKind } from '../../channels/channel.ts';
import type { Extreme, MeanSquare, Result, Stream } from '../../engine/result.ts';
import type { LogEntry } from '../../events/log.ts';
import type { RecordedSpan, Span, SpanKind } from '../../events/spans.ts';
import { type Demand, repeatsEvery_s } from '../../loads/demand.ts';
import { loadPeriod } from '../signal/load-period.ts';
import { type Applies, appliesAlways, appliesIn } from './applies.ts';
import { type Cycle, cycleOf } from './cycle.ts';
import { loadEdges } from './load-edges.ts';
import { once } from './once.ts';
import { type Outage, outageOf } from './outage.ts';
import type { Stated } from './stated.ts';

/** A run, and what holds of it whatever of its window a limit applies to. */
export interface Ran {
  readonly scenario: Stated;
  readonly demand: Demand;
  readonly result: Result;
  /** Period after which the load repeats exactly, or null. */
  readonly period_s: number | null;
  readonly outage: Outage;
  /** The run's log with the load's edges in it, in time order: what a finding's story is told from. */
  readonly story: readonly LogEntry[];
  /** Mean of the shelves' set points: the bus without load. */
  readonly noLoad_V: number;
}

export interface Case extends Ran {
  /** The same run without what follows: the same object however often it is judged, for what is worked out of it once. */
  readonly ran: Ran;
  readonly applies: Applies;
  /** The stretch that stands for the load without end, or why there is none. */
  readonly cycle: Cycle | string;
}

export function caseOf(scenario: Stated, demand: Demand, result: Result): Case {
  const period_s = repeatsEvery_s(demand, scenario);
  const { width_s, from_s, columns } = result.means;
  const means = columns.get('total.load_W');
  const load = means === undefined ? null : { means, from_s, width_s };
  const beat_s = period_s ?? (load === null ? null : loadPeriod(load.means, width_s));
  let sum = 0;
  for (const shelf of scenario.shelves) sum += shelf.values.set_point_V;
  const ran = {
    scenario,
    demand,
    result,
    period_s,
    outage: outageOf(scenario, result.spans, result.window),
    story: storyOf(scenario, result),
    noLoad_V: scenario.shelves.length === 0 ? scenario.nominal_V : sum / scenario.shelves.length,
  };
  const applies = appliesIn(result, scenario.rated_W, load, beat_s);
  return { ...ran, ran, applies, cycle: cycleOf({ ...ran, applies }) };
}

/** The same run as if every limit applied all the time: for the worst value where one does not. */
export function everywhere(c: Case): Case {
  return { ...c, applies: appliesAlways(c.result.window) };
}

/** The cycle, or null where the load does not repeat or the cabinet is not in it. */
export function repeated(c: Case): Cycle | null {
  return typeof c.cycle === 'string' ? null : c.cycle;
}

/** Spans of some kinds, of one unit where it is named. */
export function spansOf(c: Pick<Ran, 'result'>, kinds: readonly SpanKind[], who?: string): RecordedSpan[] {
  return c.result.spans.filter(
    (span) => kinds.includes(span.kind) && (who === undefined || span.who === who),
  );
}

/** Length of the judged window [s]. */
export function windowLength_s(c: Case): number {
  return c.result.window.to_s - c.result.window.from_s;
}

/** The engine's log tells load edges only where it is asked to; those it does not tell are read off the means. */
export function storyOf(scenario: Stated, result: Result): LogEntry[] {
  if (result.log.some(({ what }) => what === 'load-edge')) return [...result.log];
  const edges = loadEdges(result.means, scenario.rated_W);
  return [...edges, ...result.log].sort((a, b) => a.time_s - b.time_s);
}

/** What is known of channels by their ids. */
const byChannel = once(<T extends { readonly channel: string }>(all: readonly T[]) => {
  return new Map(all.map((one) => [one.channel, one]));
}) as <T extends { readonly channel: string }>(all: readonly T[]) => ReadonlyMap<string, T>;

export function extremeOf(result: Result, channel: string): Extreme | null {
  return byChannel(result.extremes).get(channel) ?? null;
}

export function meanSquareOf(result: Result, channel: string): MeanSquare | null {
  return byChannel(result.meanSquares).get(channel) ?? null;
}

export function streamOf(result: Result, channel: string): Stream | null {
  return result.streams.find((s) => s.channel === channel && s.samples.length > 0) ?? null;
}

/** Ids and owners of every channel of a kind, in the order of the catalogue. */
export function channelsOf(
  result: Result,
  kind: ChannelKind,
): { id: string; owner: string; index: number }[] {
  return result.recording.channels.flatMap((channel, index) =>
    channel.kind === kind ? [{ id: channel.id, owner: channel.owner, index }] : [],
  );
}

/** Rated current of a shelf or battery shelf: all its modules at the voltage the rating is stated for. */
export function ratedCurrent(values: {
  readonly module_count_count: number;
  readonly module_power_W: number;
  readonly rated_voltage_V: number;
}): number {
  return (values.module_count_count * values.module_power_W) / values.rated_voltage_V;
}

/** When a unit was out, however often. */
export function outSpans(c: Case, who: string): Span[] {
  return spansOf(c, ['out'], who);
}

/** Whether a unit was out at the end of the run. */
export function isGone(c: Case, who: string): boolean {
  return spansOf(c, ['out'], who).some(({ open }) => open);
}

/** The candidate with the largest `size`; null where there is none. Ties go to the first. */
export function worst<T>(candidates: readonly T[], size: (candidate: T) => number): T | null {
  let best: T | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const candidate of candidates) {
    const now = size(candidate);
    if (now > most) {
      most = now;
      best = candidate;
    }
  }
  return best;
}
