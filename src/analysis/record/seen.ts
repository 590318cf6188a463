/** What is worked out once per run and read by several limits. */
import type { Stability } from '../../linear/stability.ts';
import { gridOf } from '../grid/grid-of.ts';
import type { Grid } from '../judge/report.ts';
import type { Protection } from '../protection/protection.ts';
import { acBands, type BandReading } from '../read/ac-side.ts';
import type { Case } from './case.ts';

export interface Seen {
  /** Every band that is reported or that a limit names. */
  readonly bands: readonly BandReading[];
  readonly grid: Grid;
  /** What the linear model says where the run rests. */
  readonly stability: Stability;
  /** Guarded currents against their curves; null where no curve is given. */
  readonly protection: Protection | null;
}

export function seenOf(c: Case, stability: Stability, protection: Protection | null = null): Seen {
  return { bands: acBands(c), grid: gridOf(c), stability, protection };
}
