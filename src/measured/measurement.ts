import type { Sensor } from './sensor/sensor.ts';

/** What was measured on a bench or in the field, column by column, on the clock of its own file. */
export interface Measurement {
  readonly file: string;
  readonly sha256: string;
  /** Columns in the order of the file. */
  readonly columns: readonly MeasuredColumn[];
  /** What was taken from names or left out, in plain sentences. */
  readonly remarks: readonly string[];
}

export interface MeasuredColumn {
  /** Name in the file. */
  readonly column: string;
  /** Channel of the model that it stands for. */
  readonly channel: string;
  /** Seconds from the first stamp of the file, rising; values in the channel's unit. */
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  /** What it was measured with, where that is declared. */
  readonly sensor?: Sensor;
}

/** How a measured file is to be read. */
export interface MeasuredReading {
  /** Column of the stamps, with its unit behind a colon; null: by its name. */
  readonly time: string | null;
  readonly dates: 'day-first' | 'month-first' | null;
  readonly decimal: 'comma' | 'point' | null;
  /** Column → channel, where the column's name is not the channel's. */
  readonly map: ReadonlyMap<string, string>;
  /** Time of the run at which the file's first stamp lies [s]; null: found by comparing. */
  readonly at_s: number | null;
  /** Column or channel → its sensor in words, for example `rogowski, low 2 Hz`. */
  readonly sensors: ReadonlyMap<string, string>;
}
