/** One limit as it applies to one run: absolute, in the column that the run calls for. */
export type JudgedColumn = 'normal' | 'carry' | 'degraded';

export interface Limit {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  /** Unit of `value`: SI. */
  readonly unit: string;
  readonly column: JudgedColumn;
  /** null: the row is reported, not judged, in this column. */
  readonly value: number | null;
  /** The number that stood here and who took it out; null where the row never had one in this column, or still has. */
  readonly removed: string | null;
  readonly stay_s: number | null;
  /** Frequency band looked at, where the row is about one. */
  readonly band_Hz: readonly [number, number] | null;
  readonly needs_Hz: number | null;
  /** No column has a number: the value is told and never judged. */
  readonly reportOnly: boolean;
}
