import type { Beat } from './monitoring.ts';

/** Readings that move by less of a period of the load from one to the next stand still. */
const still_ratio = 1e-9;

/**
 * The period that readings every T seem to have of a load that repeats every T_p: 1/|1/T_p − n/T| with n the whole number
 * nearest to T/T_p (folding of a sampled sine, any textbook of signals). Of a load of many harmonics that of its fundamental.
 */
export function beatOf(period_s: number, load_period_s: number): Beat {
  const passed_over_count = Math.round(period_s / load_period_s);
  const moved_ratio = Math.abs(period_s / load_period_s - passed_over_count);
  return {
    load_period_s,
    apparent_period_s: moved_ratio < still_ratio ? null : period_s / moved_ratio,
    passed_over_count,
  };
}
