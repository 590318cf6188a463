/** What the sampled voltage loops of shelves are tuned to, from their parameters. */
import { exponential } from '../../base/exponential.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { VoltageLaw } from './voltage-law.ts';

/** What the loops of these shelves are tuned to. */
export function voltageLawOf(shelves: readonly ShelfValues[]): VoltageLaw {
  const column = (of: (s: ShelfValues) => number): Float64Array => Float64Array.from(shelves, of);
  return {
    count: shelves.length,
    proportional_gain_A_per_V: column((s) => s.proportional_gain_A_per_V),
    droop_ohm: column((s) => s.droop_ohm),
    filter_ratio: column((s) => s.loop_period_s / (2 * s.droop_filter_time_s)),
    integral_ratio: column(
      (s) => (s.loop_period_s * s.integral_gain_A_per_Vs) / (2 * s.proportional_gain_A_per_V),
    ),
    reach_A: column(
      (s) => (s.slew_limit_A_per_s * s.loop_period_s) / (1 - exponential(-s.loop_period_s / s.current_lag_s)),
    ),
    fade_ratio: column((s) => exponential(-s.loop_latency_s / s.current_lag_s)),
    quantum_A: column((s) => s.loop_command_quantum_A),
  };
}
