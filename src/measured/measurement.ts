import type { Sensor } from './sensor/sensor.ts';

/** What was measured on a bench or in the field, column by column, on the clock of its own file. */
export interface Measurement {
  readonly file: string;
  readonly sha256: string;
  /** Columns in the order of the file. */
  readonly columns: readonly MeasuredColumn[];
  /** What was taken from names or left out, in plain sentences. */
  readonly remarks: readonly string[];
  /** What may be no part of the measurement, in plain sentences. */
  readonly warnings: readonly string[];
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

/** Time of the run at a measurement's first stamp [s], as far as somebody knows it. */
export interface StatedTime {
  /** Exactly; null: found by comparing. */
  readonly at_s: number | null;
  /** About: it chooses between places that agree as well; null: not known. */
  readonly near_s?: number | null;
}

/** A measurement that is to be laid over a run. */
export interface Measured extends StatedTime {
  readonly measurement: Measurement;
}

/** How a measured file is to be read. */
export interface MeasuredReading {
  /** Column of the stamps, with its unit behind a colon; null: by its name. */
  readonly time: string | null;
  readonly dates: 'day-first' | 'month-first' | null;
  readonly decimal: 'comma' | 'point' | null;
  /** Column → channel, where the column's name is not the channel's. */
  readonly map: ReadonlyMap<string, string>;
  /** Values, as they stand in the file, that mean that nothing was read. */
  readonly sentinel: readonly number[];
  /** Column or channel → its sensor in words, for example `rogowski, low 2 Hz`. */
  readonly sensors: ReadonlyMap<string, string>;
}
