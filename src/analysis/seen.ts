/** What is worked out once per run and read by several limits. */
import type { Stability } from '../linear/stability.ts';
import type { BandReading } from './ac-side.ts';
import type { Grid } from './report.ts';

export interface Seen {
  /** Every band that is reported or that a limit names. */
  readonly bands: readonly BandReading[];
  readonly grid: Grid;
  /** What the linear model says where the run rests. */
  readonly stability: Stability;
}
