/**
 * What a controller of the user's own is: a JavaScript or TypeScript module, named in a scenario,
 *
 *   controllers:
 *     - { replaces: share, file: ../models/controllers/share-as-built.ts }
 *
 * that exports `controller`. It runs in place of a firmware task, at that task's period and with that task's
 * samples, which are as old as its latency (`firmware.share.period`, `firmware.share.latency`). It sees nothing
 * else of the cabinet, and writes nothing but what `run` returns.
 *
 * The module stands alone: types may be imported, nothing else. It has the language and no more: no clock, no
 * random numbers, no files, no timers, no promises. What it wants to remember from one call to the next lies in `memory`; what
 * it keeps anywhere else is not part of a settled start, of `response` and of `gains`.
 *
 * What it wants to be seen the scenario names, `shows: [S1 error_V, mode_ratio]`, units and all: `run` gets a column for these numbers
 * behind its other arguments, and what it leaves there is a channel of the run (`share.S1 error_V`) until the next call.
 *
 * A call that throws, that returns something else than one finite number for each unit, that leaves a number in
 * memory that is not finite, or that does not return within 200 million turns of the interpreter ends the run, and is
 * reported with file, line and simulated time. Speed of the machine changes no result.
 */
import type { HandoverValues } from '../../scenario/parameters/handover.ts';
import type { ShareValues } from '../../scenario/parameters/share.ts';
import type { Firmware } from '../../scenario/scenario.ts';

/** What every kind may have beside `run`. */
interface Remembering<Setup, Rest> {
  /** Names of the numbers in memory, each once; none without it. They name the owners of modes in `response`. */
  memory?(setup: Setup): readonly string[];
  /** Memory where the cabinet has settled; all zero without it. */
  restingMemory?(rest: Rest, setup: Setup): ArrayLike<number>;
}

/** The share task: trims of the shelves' set points from their currents. */
export interface ShareController extends Remembering<ShareSetup, { readonly trim_V: readonly number[] }> {
  /**
   * Trim of each shelf [V], one number per shelf in the order of `setup.shelves`, each within
   * ±`setup.values.trim_limit_V`; the shelf rounds it to `trim_quantum_V`. `input` is filled anew for each call.
   */
  run(input: ShareInput, memory: Float64Array, setup: ShareSetup, shown: Float64Array): ArrayLike<number>;
  /**
   * Trim at which a shelf rests that carries `current_ratio` while the running shelves carry `mean_ratio` on
   * average [V]: the settled start looks for currents and trims that agree. Without it the cabinet
   * is run until it rests, before a run, `response` and `gains`.
   */
  rest?(shelf: number, current_ratio: number, mean_ratio: number, setup: ShareSetup): number;
}

export interface ShareSetup {
  readonly shelves: readonly string[];
  readonly rated_A: readonly number[];
  /** Static droop of each shelf. */
  readonly droop_ohm: readonly number[];
  /** The scenario's `firmware.share`, in SI. */
  readonly values: ShareValues;
}

export interface ShareInput {
  /** Simulated time of this call. */
  readonly time_s: number;
  /** Current of each shelf over its rated current, `latency_s` old. */
  readonly current_ratio: Float64Array;
  /** Takes part: running, on AC, not at a limit, not walking in. */
  readonly online: readonly boolean[];
}

/** The smoothing task: power of each tray from the powers of all. */
export interface SmoothingController
  extends Remembering<SmoothingSetup, { readonly load_W: number; readonly command_W: readonly number[] }> {
  /**
   * Power of each tray into the bus [W], one number per tray in the order of `setup.trays`. Beyond what a tray can
   * give or take it is clipped there, and the log says so.
   */
  run(
    input: SmoothingInput,
    memory: Float64Array,
    setup: SmoothingSetup,
    shown: Float64Array,
  ): ArrayLike<number>;
}

export interface SmoothingSetup {
  readonly trays: readonly string[];
  readonly power_W: readonly number[];
  /** Energy above an empty bank at the ends of each tray's voltage window. */
  readonly low_J: readonly number[];
  readonly high_J: readonly number[];
  /** The scenario's `firmware.smoothing`, in SI. */
  readonly values: Firmware['smoothing'];
}

export interface SmoothingInput {
  readonly time_s: number;
  /** Power of all shelves and batteries into the bus, and of all trays, filtered alike, `latency_s` old. */
  readonly sources_W: number;
  readonly trays_W: number;
  /** Energy above an empty bank of each tray, and what it can give and take, from samples as old. */
  readonly energy_J: Float64Array;
  readonly most_out_W: Float64Array;
  readonly most_in_W: Float64Array;
  readonly online: readonly boolean[];
  /** First call after AC was lost and came back: nothing ran in between. */
  readonly resumed: boolean;
}

/**
 * The sampled voltage loop of the rectifier shelves (`shelves.loop_period` and what goes with it): the current that each stage is
 * commanded to. Shelves of another timing have a call of their own, with a memory of their own.
 */
export interface VoltageController
  extends Remembering<
    VoltageSetup,
    { readonly current_A: readonly number[]; readonly alive_ratio: readonly number[] }
  > {
  /**
   * Current of each shelf [A], one number per shelf in the order of `setup.shelves`. What lies beyond 0 and `limit_A` is
   * held there, and a shelf that does not run is commanded to 0; the command is rounded to the shelf's quantum.
   */
  run(input: VoltageInput, memory: Float64Array, setup: VoltageSetup, shown: Float64Array): ArrayLike<number>;
}

export interface VoltageSetup {
  readonly shelves: readonly string[];
  readonly rated_A: readonly number[];
  readonly period_s: number;
  readonly latency_s: number;
  /** What the built-in law is tuned to, with all modules alive; its equations: src/firmware/shelf/voltage-law.ts. */
  readonly tuned: {
    readonly proportional_gain_A_per_V: readonly number[];
    readonly droop_ohm: readonly number[];
    readonly filter_ratio: readonly number[];
    readonly integral_ratio: readonly number[];
    readonly reach_A: readonly number[];
    readonly fade_ratio: readonly number[];
    readonly quantum_A: readonly number[];
  };
}

export interface VoltageInput {
  readonly time_s: number;
  /** Output of each shelf as its converters show it, `latency_s` old. */
  readonly voltage_V: Float64Array;
  readonly current_A: Float64Array;
  /** Set point plus trim. */
  readonly reference_V: Float64Array;
  /** Highest current that a shelf may give. */
  readonly limit_A: Float64Array;
  /** Share of its modules that are alive. */
  readonly alive_ratio: Float64Array;
  readonly running: readonly boolean[];
}

/**
 * The hand-over of the battery shelves: when they start, at what set point they carry, when they sleep again. It is asked at every
 * supervision sample while AC is lost, while a shelf is awake, and while a node is near the trigger voltage; asleep at nominal it
 * is not asked. Start time, protection and the end of the charge are the shelf's own, as before.
 */
export interface HandoverController extends Remembering<HandoverSetup, Record<string, never>> {
  /** Set point of each shelf [V], one number per shelf in the order of `setup.batteries`; 0 or less: asleep. */
  run(
    input: HandoverInput,
    memory: Float64Array,
    setup: HandoverSetup,
    shown: Float64Array,
  ): ArrayLike<number>;
}

export interface HandoverSetup {
  readonly batteries: readonly string[];
  readonly rated_A: readonly number[];
  /** Sampling period of all supervision. */
  readonly period_s: number;
  /** The scenario's `firmware.handover`, in SI. */
  readonly values: HandoverValues;
}

export interface HandoverInput {
  readonly time_s: number;
  /** At each shelf's own node. */
  readonly voltage_V: Float64Array;
  readonly current_A: Float64Array;
  readonly charge_ratio: Float64Array;
  /** Told to start and not there yet; and giving, or able to give. */
  readonly starting: readonly boolean[];
  readonly carrying: readonly boolean[];
  /** As it is signalled. */
  readonly ac_lost: boolean;
  /** AC has been good for `values.return_time_s` and every walk-in is over. */
  readonly settled: boolean;
}
