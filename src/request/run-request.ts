/**
 * What a run was asked for: everything but the inputs' own text that decides its result. A bundle keeps it, so that
 * the run can be made again from the bundle alone.
 */
import type { Change, RecordedReading, Waiver } from '../scenario/scenario.ts';

/** A change, and the option that asked for it: `--set`, or one of a replay's own such as `--from`. */
export interface AskedChange extends Change {
  readonly option: string;
}

/** A recording that replaces the scenario's load, and how it is to be read. */
export interface AskedLoad {
  readonly file: string;
  readonly reading: RecordedReading;
  /** Of its reading what nobody stated: keys of the load section in which a default stands. */
  readonly assumed: readonly string[];
}

/** A measurement that is laid over the run, and how it is to be read. */
export interface AskedMeasurement {
  readonly file: string;
  readonly time: string | null;
  readonly dates: 'day-first' | 'month-first' | null;
  readonly decimal: 'comma' | 'point' | null;
  readonly map: readonly { readonly column: string; readonly channel: string }[];
  /** Time of the run at its first stamp; null: found by comparing. */
  readonly at_s: number | null;
  /** About that time, to choose between places that agree as well. */
  readonly near_s: number | null;
  /** Values that mean that nothing was read. */
  readonly sentinel: readonly number[];
  /** Of a column or channel, in words. */
  readonly sensors: readonly { readonly of: string; readonly sensor: string }[];
}

export interface RunRequest {
  /** Path of the scenario file, relative to where the command was given; `-` is standard input. */
  readonly scenario: string;
  /** In the order in which they are made. */
  readonly changes: readonly AskedChange[];
  readonly load: AskedLoad | null;
  /** Waivers beside the scenario's own. */
  readonly waivers: readonly Waiver[];
  /** Day for which the run is judged, for example 2030-06-30. */
  readonly judged_on: string;
  /** The day on which it was asked for. */
  readonly asked_on: string;
  /** Run again at finer steps and say how far each finding moved. */
  readonly doubt: boolean;
  readonly measured: AskedMeasurement | null;
}
