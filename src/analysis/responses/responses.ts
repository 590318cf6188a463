/**
 * How each unit, and the bus at the worst sled, answered every edge of the load and every event of a run: read off the
 * record's buckets. A unit that hardly moves (1 % of its rating; the bus 0.1 % of nominal: common practice, no source) has
 * no response.
 */
import type { LogEntry } from '../../events/log.ts';
import type { SpanKind } from '../../events/spans.ts';
import { type Case, channelsOf, extremeOf, ratedCurrent, worst } from '../record/case.ts';
import { disturbances } from '../record/disturbances.ts';
import { type StepResponse, type StepStretch, stepResponse } from './step-response.ts';

export const answering = ['bus', 'shelf', 'tray', 'battery shelf'] as const;

export type Answering = (typeof answering)[number];

/** What is looked at: a unit's current or power, or the voltage at the sled that fell lowest of those served throughout. */
export interface Watched {
  readonly kind: Answering;
  /** The unit; of the bus that sled. */
  readonly unit: string;
  readonly channel: string;
  readonly quantity: 'V' | 'A' | 'W';
  /** What moves less is still, in the quantity's unit. */
  readonly still: number;
}

/** One unit after one step: null where it did not move enough. */
export interface Answer extends Watched {
  readonly step: StepStretch;
  readonly response: StepResponse | null;
}

const stillUnit_ratio = 0.01;
const stillBus_ratio = 0.001;

/** Disturbances nearer to each other are one step; the record holds too little between them. */
const together_s = 0.02;

/** An edge is told to 10 ms; its load moves in the first bucket about it that is as wide as this part of rated power. */
const edge_s = 0.01;
const moving_ratio = 0.01;

/** A sled that was off the bus or shorted for a while shows no bus then. */
const isGone: ReadonlySet<SpanKind> = new Set(['out', 'short']);

type Read = Pick<Case, 'scenario' | 'result' | 'story'>;

/** Each step that the record can show with the stretch before it; what begins the window has none. */
export function stepsOf(c: Read): StepStretch[] {
  const { window } = c.result;
  const edges = new Set(c.story.filter(isEdge).map(({ time_s }) => time_s));
  const told = disturbances(c);
  const times = told
    .filter((time_s, k) => k === 0 || time_s - told[k - 1]! > together_s)
    .map((time_s) => (edges.has(time_s) ? whereItMoves(c, time_s) : time_s));
  return times.flatMap((at_s, k) => {
    const before_s = times[k - 1] ?? window.from_s;
    return at_s > before_s ? [{ before_s, at_s, until_s: times[k + 1] ?? window.to_s }] : [];
  });
}

const isEdge = ({ what }: LogEntry): boolean => what === 'load-edge';

function whereItMoves({ result, scenario }: Read, told_s: number): number {
  const { channels, edges_s, min, max, bucketCount } = result.recording;
  const load = channels.findIndex(({ id }) => id === 'total.load_W');
  for (let k = 0; load >= 0 && k < bucketCount && edges_s[k]! < told_s + edge_s; k++) {
    if (edges_s[k + 1]! <= told_s - edge_s) continue;
    if (max[load]![k]! - min[load]![k]! > moving_ratio * scenario.rated_W) return edges_s[k]!;
  }
  return told_s;
}

/** The bus first, then units as the scenario lists them. */
export function watchedOf({ scenario, result }: Pick<Case, 'scenario' | 'result'>): Watched[] {
  const gone = new Set(result.spans.flatMap(({ kind, who }) => (isGone.has(kind) ? [who] : [])));
  const served = new Set(scenario.sleds.flatMap(({ id }) => (gone.has(id) ? [] : [id])));
  const lowest = worst(
    channelsOf(result, 'node-voltage').filter(({ owner }) => served.has(owner)),
    ({ id }) => -(extremeOf(result, id)?.min ?? Number.POSITIVE_INFINITY),
  );
  const current = (kind: Answering, unit: string, rated_A: number): Watched => ({
    kind,
    unit,
    channel: `${unit}.current_A`,
    quantity: 'A',
    still: stillUnit_ratio * rated_A,
  });
  return [
    ...(lowest === null
      ? []
      : [
          {
            kind: 'bus',
            unit: lowest.owner,
            channel: lowest.id,
            quantity: 'V',
            still: stillBus_ratio * scenario.nominal_V,
          } as const,
        ]),
    ...scenario.shelves.map(({ id, values }) => current('shelf', id, ratedCurrent(values))),
    ...scenario.trays.map(
      ({ id, values }): Watched => ({
        kind: 'tray',
        unit: id,
        channel: `${id}.power_W`,
        quantity: 'W',
        still: stillUnit_ratio * values.power_limit_W,
      }),
    ),
    ...scenario.batteries.map(({ id, values }) => current('battery shelf', id, ratedCurrent(values))),
  ];
}

/** Steps in time order, in each the bus and the units; those that the record holds too little of are left out. */
export function answersOf(c: Read): Answer[] {
  const { channels, edges_s, min, max, mean } = c.result.recording;
  const index = new Map(channels.map(({ id }, k) => [id, k]));
  const watched = watchedOf(c);
  return stepsOf(c).flatMap((step) =>
    watched.flatMap((one) => {
      const k = index.get(one.channel);
      if (k === undefined) return [];
      const response = stepResponse({ edges_s, min: min[k]!, max: max[k]!, mean: mean[k]! }, step);
      return response === null
        ? []
        : [{ ...one, step, response: response.span < one.still ? null : response }];
    }),
  );
}
