/**
 * Families of synthetic loads, declared once: what each is described by. The reader checks against this table,
 * the generators read its fields (`low` is `low_W`), `check` prints them. Powers are of the whole cabinet.
 */
import { type ParameterSpec, parameters, type Values } from './parameter.ts';

const power = (means: string) =>
  ({ dimension: 'power', symbol: 'P', means, min: 0, max: 1e9 }) as const satisfies ParameterSpec;

/** A time that must be given, in whole ticks. */
const time = (means: string) =>
  ({ dimension: 'time', symbol: 't', means, min: 0, max: 1e6, ticks: true }) as const satisfies ParameterSpec;

/** A length that must be given, above 0. */
const length = (means: string) => ({ ...time(means), exclusive: true }) as const;

const edge = {
  dimension: 'time',
  symbol: 't_e',
  means: 'duration of an edge',
  min: 0,
  max: 1e4,
  exclusive: true,
  usual: [1e-4, 1],
  ticks: true,
} as const satisfies ParameterSpec;

const share = (means: string) =>
  ({ dimension: 'ratio', symbol: 'k', means, min: 0, max: 1 }) as const satisfies ParameterSpec;

const count = (means: string, min: number) =>
  ({ dimension: 'count', symbol: 'n', means, min, max: 1e4 }) as const satisfies ParameterSpec;

const rate = (means: string) =>
  ({
    dimension: 'frequency',
    symbol: 'f',
    means,
    min: 0,
    max: 1e4,
    exclusive: true,
  }) as const satisfies ParameterSpec;

/** How sleds differ in time: evenly over `spread`, and at random over `scatter` (seeded). */
const apart = {
  spread: { ...time('largest shift of a sled against the first sled, evenly spread'), fallback: 0 },
  scatter: { ...time('largest random shift of a sled, drawn evenly'), fallback: 0 },
} as const;

export const syntheticLoads = {
  /** Iterations: exchange at `low`, computation at `high` with short dips, drifting lengths and levels. */
  training: parameters({
    low: power('level while data are exchanged'),
    high: power('level while computing'),
    period: length('length of an iteration'),
    duty: share('share of the iteration at the upper level'),
    edge,
    dips: { ...count('short dips within the upper level', 0), fallback: 0 },
    dip_level: { ...share('level of a dip over the upper level'), fallback: 0.8 },
    dip_length: { ...time('length of a dip at half height'), fallback: 0.05 },
    jitter: { ...time("standard deviation of an iteration's length"), fallback: 0 },
    trend: { ...share('largest slow deviation of the level'), fallback: 0 },
    trend_period: { ...length('length of one slow swing up and down'), fallback: 60 },
    ...apart,
  }),
  /** Steady work with gaps at regular times and a sharp return. */
  checkpoint: parameters({
    high: power('level while working'),
    low: power('level in a gap'),
    at: time('start of the first gap'),
    length: length('length of a gap at half height'),
    every: length('from the start of one gap to the next'),
    edge,
    ...apart,
  }),
  /** Idle, loading of data, a few unsteady iterations, then the full level. */
  'start-up': parameters({
    low: power('idle level'),
    loading: power('level while data are loaded'),
    high: power('full level'),
    at: time('start of loading'),
    loading_length: length('length of loading'),
    unsteady: { ...count('unsteady iterations before the full level', 0), fallback: 3 },
    unsteady_period: { ...length('length of an unsteady iteration'), fallback: 2 },
    rise: { ...edge, means: 'last rise to the full level: a step or a ramp', usual: [1e-4, 120] },
    edge,
    ...apart,
  }),
  /** Work that is aborted and begins again. */
  abort: parameters({
    high: power('level before the abort and after the restart'),
    low: power('idle level'),
    at: time('instant of the abort'),
    edge,
    pause: length('from the abort to the restart'),
    rise: { ...edge, means: 'rise at the restart', usual: [1e-4, 120] },
    ...apart,
  }),
  /** Requests that arrive at random: each a short full prefill and a longer, lower decode. */
  inference: parameters({
    low: power('idle level'),
    decode: power('level while answers are written'),
    high: power('level while prompts are taken in'),
    rate: rate('requests a second at each sled'),
    prefill_length: length('mean length of a prefill, drawn from half to one and a half of it'),
    decode_length: length('mean length of a decode, drawn exponentially'),
    common: { ...share('share of requests that reach all sleds at once'), fallback: 0 },
    swell: { ...share('slow deviation of the rate'), fallback: 0 },
    swell_period: { ...length('length of one slow swing of the rate'), fallback: 60 },
    edge,
  }),
  /** A burn at a steady floor: ramp up, ripple, ramp down. */
  floor: parameters({
    low: power('level before and after'),
    high: power('floor that is held'),
    ripple: { ...share('ripple over the floor, peak to peak'), fallback: 0 },
    ripple_period: { ...length('period of the ripple'), fallback: 0.5 },
    at: time('start of the rise'),
    rise: length('length of the rise'),
    hold: length('how long the floor is held'),
    fall: length('length of the fall'),
    ...apart,
  }),
  /** Short spikes at random instants on a steady level, on some or all sleds at once. */
  spikes: parameters({
    low: power('steady level'),
    high: power('level of a spike if all sleds took part'),
    length: length('length of a spike at half height'),
    rate: rate('spikes a second'),
    together: { ...share('share of the sleds that take part in a spike'), fallback: 1 },
    edge,
  }),
  /** A square wave whose frequency climbs in steps. */
  'sweep-square': parameters({
    low: power('lower level'),
    high: power('upper level'),
    from: rate('first frequency'),
    to: rate('last frequency'),
    steps: count('frequencies, evenly spaced as ratios', 1),
    hold: length('least time at each frequency, filled up to whole periods'),
    edge,
    ...apart,
  }),
  /** A sine, drawn in straight pieces, whose frequency climbs in steps. */
  'sweep-sine': parameters({
    low: power('lowest power'),
    high: power('highest power'),
    from: rate('first frequency'),
    to: rate('last frequency'),
    steps: count('frequencies, evenly spaced as ratios', 1),
    hold: length('least time at each frequency, filled up to whole periods'),
    pieces: { ...count('straight pieces of a period', 8), fallback: 32 },
    ...apart,
  }),
  /** Equal steps up and down again. */
  ladder: parameters({
    low: power('lowest step'),
    high: power('highest step'),
    steps: count('steps from the lowest to the highest', 1),
    hold: length('length of a step'),
    edge,
    ...apart,
  }),
  /** A steady load that lies unevenly on the two halves of the sleds, and moves between them. */
  skewed: parameters({
    power: power('power of the whole cabinet'),
    before: share('share of the first half of the sleds before the move'),
    after: share('share of the first half of the sleds after the move'),
    at: time('start of the move'),
    edge: { ...edge, means: 'duration of the move', usual: [1e-4, 120] },
  }),
  /** A command that clamps the load for a while. */
  brake: parameters({
    high: power('level before and after'),
    low: power('level under the clamp'),
    at: time('start of the clamp'),
    edge,
    hold: length('length of the clamp at half height'),
    ...apart,
  }),
} as const;

export type SyntheticKind = keyof typeof syntheticLoads;

export type Synthetic<K extends SyntheticKind> = { readonly kind: K } & Values<(typeof syntheticLoads)[K]>;

/** One of the families with its values. */
export type SyntheticLoad = { [K in SyntheticKind]: Synthetic<K> }[SyntheticKind];

export function isSynthetic(kind: string): kind is SyntheticKind {
  return Object.hasOwn(syntheticLoads, kind);
}
