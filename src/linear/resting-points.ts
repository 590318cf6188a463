/**
 * Where a run rests: the stretches between what happened, by who holds the bus in them, and the levels at which the
 * load stands still there. Read from the record; a point that the run does not visit is none.
 */
import type { Result } from '../engine/result.ts';
import type { RecordedSpan, SpanKind } from '../events/spans.ts';
import type { OccurrenceKind } from '../scenario/occurrences.ts';
import type { EventSpec, Scenario } from '../scenario/scenario.ts';
import type { Standing } from './standing.ts';

export interface RestingPoint {
  readonly from_s: number;
  readonly load_W: number;
  /** Where the trays hold the smoothed load meanwhile [W]; null: it has settled. */
  readonly smoothed_W: number | null;
  readonly standing: Standing;
}

/** Spans that change who holds the bus or what the cabinet is. */
const structural: ReadonlySet<SpanKind> = new Set([
  'ac-lost',
  'ac-told-lost',
  'walk-in',
  'carrying',
  'out',
  'short',
  'altered',
]);

/** While one of these holds, nothing rests. */
const restless: ReadonlySet<SpanKind> = new Set(['walk-in', 'short']);

/** What these do shows in who is stopped, who carries and what the load is. */
const seenInSpans: ReadonlySet<OccurrenceKind> = new Set([
  'ac-loss',
  'ac-return',
  'ac-sag',
  'ac-swell',
  'phase-loss',
  'shelf-trip',
  'shelf-join',
  'reverse-feed',
  'battery-fail',
  'battery-late',
  'sled-short',
  'sled-on',
  'brake',
]);

/** The load rests where its 10 ms means stay this close together, over rated power, for this many of them. */
const still_ratio = 0.01;
const still_count = 5;

/** A smoothed load has arrived where the load has rested for this many of its time constants. */
const arrived = 3;

/** Highest and lowest level for each way of standing, in the order in which the run comes to them. */
export function restingPoints(scenario: Scenario, result: Result): RestingPoint[] {
  const spans = result.spans.filter(({ kind }) => structural.has(kind));
  const { from_s, to_s } = result.window;
  const cuts = [from_s, ...spans.flatMap((span) => [span.from_s, span.to_s]), to_s]
    .filter((t) => t >= from_s && t <= to_s)
    .sort((a, b) => a - b);
  const found = new Map<string, RestingPoint[]>();
  for (let k = 1; k < cuts.length; k++) {
    const [begin, end] = [cuts[k - 1]!, cuts[k]!];
    const held = spans.filter((span) => span.from_s <= begin && span.to_s >= end);
    if (held.some(({ kind }) => restless.has(kind))) continue;
    const standing = standingOf(scenario, held, begin);
    // Equal ways of standing are one, however the run came to them.
    const key = JSON.stringify(standing);
    const levels = levelsIn(scenario, result, begin, end, standing);
    if (levels.length > 0) found.set(key, [...(found.get(key) ?? []), ...levels]);
  }
  return [...found.values()].flatMap((points) => {
    const high = points.reduce((a, b) => (b.load_W > a.load_W ? b : a));
    const low = points.reduce((a, b) => (b.load_W < a.load_W ? b : a));
    return high.load_W - low.load_W > still_ratio * scenario.rated_W ? [high, low] : [high];
  });
}

function standingOf(scenario: Scenario, held: readonly RecordedSpan[], at_s: number): Standing {
  const whoIs = (kind: SpanKind): string[] => held.filter((span) => span.kind === kind).map(({ who }) => who);
  const carrying = whoIs('carrying');
  const out = [...whoIs('out'), ...whoIs('ac-lost')];
  const isOn = (event: EventSpec): boolean => {
    const begins = event.at_s + (event.over_s ?? 0);
    if (seenInSpans.has(event.what) || begins > at_s) return false;
    if (event.what === 'sled-off' && event.unit !== 'all' && !out.includes(event.unit)) return false;
    return event.for_s === null || begins + event.for_s > at_s;
  };
  return {
    carrying: scenario.batteries.map(({ id }) => id).filter((id) => carrying.includes(id)),
    stopped: scenario.shelves.map(({ id }) => id).filter((id) => out.includes(id)),
    isAcLost: held.some(({ kind }) => kind === 'ac-told-lost'),
    events: scenario.events.filter(isOn),
  };
}

/** Levels at which the load stands still between two times; its mean where it never does. */
function levelsIn(
  scenario: Scenario,
  { means }: Result,
  begin_s: number,
  end_s: number,
  standing: Standing,
): RestingPoint[] {
  const load = means.columns.get('total.load_W');
  if (load === undefined) return [];
  const first = Math.max(0, Math.ceil((begin_s - means.from_s) / means.width_s - 1e-9));
  const last = Math.min(load.length, Math.floor((end_s - means.from_s) / means.width_s + 1e-9));
  if (last - first < still_count) return [];
  const smoothed = means.columns.get('total.smoothed_W');
  const within_W = still_ratio * scenario.rated_W;
  const long = (arrived * scenario.firmware.smoothing.time_constant_s) / means.width_s;
  const point = (at: number, load_W: number, count: number): RestingPoint => ({
    from_s: means.from_s + at * means.width_s,
    load_W,
    smoothed_W:
      smoothed === undefined || standing.isAcLost || count >= long ? null : meanIn(smoothed, at, at + count),
    standing,
  });
  const out: RestingPoint[] = [];
  for (let j = first; j < last; ) {
    let [low, high, end] = [load[j]!, load[j]!, j];
    for (; end < last; end++) {
      const next = load[end]!;
      if (Math.max(high, next) - Math.min(low, next) > within_W) break;
      low = Math.min(low, next);
      high = Math.max(high, next);
    }
    if (end - j >= still_count) out.push(point(j, (low + high) / 2, end - j));
    j = end;
  }
  return out.length > 0 ? out : [point(first, meanIn(load, first, last), last - first)];
}

function meanIn(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let j = from; j < to; j++) sum += values[j]!;
  return sum / (to - from);
}
