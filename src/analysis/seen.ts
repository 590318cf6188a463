/** What is worked out once per run and read by several limits. */
import type { BandReading } from './ac-side.ts';
import type { Grid } from './report.ts';

export interface Seen {
  /** Every band that is reported or that a limit names. */
  readonly bands: readonly BandReading[];
  readonly grid: Grid;
}
