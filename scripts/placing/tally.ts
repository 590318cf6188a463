import type { MeasuredReport } from '../../src/analysis/judge/report.ts';
import type { Bench } from './bench.ts';

/** How many benches were placed where they are, and what was said of those that were not. */
export interface Tally {
  benches: number;
  inside: number;
  refused: number;
  warned: number;
  offWithoutWarning: number;
  clocks: number;
  clocksInside: number;
  worst: string;
}

export function emptyTally(): Tally {
  return {
    benches: 0,
    inside: 0,
    refused: 0,
    warned: 0,
    offWithoutWarning: 0,
    clocks: 0,
    clocksInside: 0,
    worst: '',
  };
}

export function enter(tally: Tally, bench: Bench, placed: MeasuredReport, seed: number): void {
  const off_s = placed.at_s - bench.at_s;
  tally.benches++;
  if (placed.warnings.length > 0) tally.warned++;
  if (placed.aligned !== 'found') tally.refused++;
  const [low, high] = placed.at_interval_s ?? [Number.NaN, Number.NaN];
  if (low <= bench.at_s && bench.at_s <= high) tally.inside++;
  if (Math.abs(off_s) > bench.interval_s && placed.warnings.length === 0) {
    tally.offWithoutWarning++;
    tally.worst += ` seed ${seed}: ${off_s} s`;
  }
  if (placed.clock_rate_ratio !== null) {
    tally.clocks++;
    const z = (placed.clock_rate_ratio - bench.rate_ratio) / (placed.clock_rate_error_ratio ?? 0);
    if (Math.abs(z) <= 1.96) tally.clocksInside++;
  }
}
