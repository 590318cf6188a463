import { Stages } from '../../devices/stage/stage.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, columnsOf, ids, nodesOf } from './column.ts';

/** Of a rectifier or battery shelf, what its output stage is rated by. */
interface Rated {
  readonly values: {
    readonly module_count_count: number;
    readonly module_power_W: number;
    readonly rated_voltage_V: number;
  };
}

/** Rated power of a shelf, and the current that it is at rated voltage. */
export const rated_W = ({ values }: Rated): number => values.module_count_count * values.module_power_W;
export const rated_A = (shelf: Rated): number => rated_W(shelf) / shelf.values.rated_voltage_V;

/** Rectifier shelves, running at their set points, then battery shelves, which wait. */
export function stagesOf({ shelves, batteries }: Scenario, topology: Topology, offset: number): Stages {
  const converters = [...shelves, ...batteries];
  const stages = new Stages(
    {
      names: ids(converters),
      node: nodesOf(topology, converters),
      ...columnsOf(converters, [
        'proportional_gain_A_per_V',
        'integral_gain_A_per_Vs',
        'droop_ohm',
        'droop_filter_time_s',
        'current_lag_s',
        'control_delay_s',
        'slew_limit_A_per_s',
      ]),
      rated_A: column(converters, rated_A),
      foldBack_V: column(converters, (c) => c.values.fold_back_ratio * c.values.rated_voltage_V),
      // The loops of battery shelves are their stages' own.
      isCommanded: Uint8Array.from(converters, (_, k) =>
        (shelves[k]?.values.loop_period_s ?? 0) > 0 ? 1 : 0,
      ),
    },
    offset,
  );
  converters.forEach((c, k) => {
    stages.limit0_A[k] = c.values.current_limit_ratio * rated_A(c);
    stages.limit1_A[k] = stages.limit0_A[k]!;
  });
  shelves.forEach((shelf, k) => {
    stages.setPoint_V[k] = shelf.values.set_point_V * (1 + shelf.values.set_point_offset_ratio);
    stages.running[k] = 1;
  });
  return stages;
}
