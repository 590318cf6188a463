/** What is worked out once per run and read by several limits. */
import type { Stability } from '../../linear/stability.ts';
import { gridOf } from '../grid/grid-of.ts';
import type { Grid } from '../judge/report.ts';
import type { Protection } from '../protection/protection.ts';
import { acBands, type BandReading } from '../read/ac-side.ts';
import { type BandEdges, bandEdges_Hz } from '../signal/bands.ts';
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
  return { bands: acBands(c, edgesOf(c)), grid: gridOf(c), stability, protection };
}

/** The bands reported in every run, then those that only a limit names. */
function edgesOf({ scenario }: Case): BandEdges[] {
  const edges = [...bandEdges_Hz];
  for (const { quantity, band_Hz } of scenario.limits) {
    if (quantity !== 'ac-band-ripple' || band_Hz === null) continue;
    if (!edges.some(([low, high]) => low === band_Hz[0] && high === band_Hz[1])) edges.push(band_Hz);
  }
  return edges;
}
