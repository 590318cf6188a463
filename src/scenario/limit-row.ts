/** One row of the limits file: see src/limits. Values are relative to the nominal voltage where the row says so. */
export interface LimitRow {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** What is compared; src/limits knows each name. */
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  readonly unit: string;
  readonly normal: number | null;
  readonly carry: number | null;
  readonly degraded: number | null;
  /** Longest stay beyond the value that is still allowed, where the row is about a stay. */
  readonly stay_s: number | null;
  /** Frequency band looked at, where the row is about one. */
  readonly band_Hz: readonly [number, number] | null;
  /** Content the input must show for this row to be assessable: the row's highest frequency. */
  readonly needs_Hz: number | null;
}
