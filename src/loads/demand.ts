/** What a load is there to show, and when. */
export interface Content {
  readonly from_tick: number;
  readonly to_tick: number;
  /** What lies there, for messages: `the step`, `the ladder`. */
  readonly what: string;
  /** It comes again and again: any stretch as long as this shows it. */
  readonly repeats: boolean;
  /** Where it swings slowly while it repeats, the top of that: some stretch at a top has to be shown too. */
  readonly crest?: Crest | null;
}

/** The top of a slow swing, which comes again and again. */
export interface Crest {
  /** As messages name it: `the top of the trend`. */
  readonly what: string;
  /** The first stretch at a top that does not begin before this tick. */
  next(from_tick: number): Pick<Content, 'from_tick' | 'to_tick'>;
}

/**
 * Demand against time as the engine reads it: a few profiles, straight between kinks, every kink on a whole
 * tick. Sled k asks for `share[k] × profile[profileOf[k]]`; a profile is the power of the whole cabinet if
 * every sled followed it.
 */
export interface Demand {
  readonly profileCount: number;
  /** Profile that each sled follows. */
  readonly profileOf: Int32Array;
  /** Time mean and extremes of the total over the run [W]. */
  readonly mean_W: number;
  readonly peak_W: number;
  readonly low_W: number;
  /** Energy of the total from tick 0 to the end of the run [J]. */
  readonly energy_J: number;
  /** What the work asks for, where governors of the sleds let something else through. */
  readonly asked?: Pick<Demand, 'energy_J' | 'peak_W'> & { readonly withheld_J: number };
  /** What the load is there to show, and when; null or absent where any stretch stands for it. */
  readonly content?: Content | null;
  /** Length after which the demand repeats exactly, or null. */
  readonly period_ticks: number | null;
  /** Largest shift that rounding to ticks has put on a kink [s]. */
  readonly rounding_s: number;
  /** What the load can show: null means everything (synthetic). Limits above it are inconclusive. */
  readonly bandwidth_Hz: number | null;
  /** The load swings about its mean from the start: slow states settle there, not on the power at tick 0. */
  readonly settlesOnMean?: boolean;
  /** Where a recorded load comes from, what it stands for and what was done to it, for the report. */
  readonly remarks?: readonly string[];
  /** Smallest tick above `tick` at which a profile's slope changes; Infinity when none follows. */
  nextKink(tick: number): number;
  /** Size of the kink at `tick`: largest change of slope of any profile there [W/s]; 0 where there is none. */
  kinkAt(tick: number): number;
  /** Writes each profile's power at `tick` into `out` [W]. Any order is allowed; neighbouring ticks are cheap. */
  at(out: Float64Array, tick: number): void;
}

/** After how long the demand repeats exactly [s]; null where it does not. */
export function repeatsEvery_s(
  { period_ticks }: Pick<Demand, 'period_ticks'>,
  { tick_s }: { readonly tick_s: number },
): number | null {
  return period_ticks === null ? null : period_ticks * tick_s;
}
