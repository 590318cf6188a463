import { Trays } from '../../devices/tray/tray.ts';
import { fastCapacitance_F } from '../../scenario/derived/slow-branch.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, columnsOf, ids, nodesOf } from './column.ts';

export function traysOf({ trays, nominal_V }: Scenario, topology: Topology, offset: number): Trays {
  return new Trays(
    {
      names: ids(trays),
      node: nodesOf(topology, trays),
      ...columnsOf(trays, [
        'capacitance_F',
        'voltage_slope_ratio',
        'rated_voltage_V',
        'esr_ohm',
        'leakage_A',
        'voltage_low_V',
        'voltage_high_V',
        'power_lag_s',
        'power_slew_W_per_s',
        'efficiency_ratio',
        'standing_loss_W',
        'power_limit_W',
        'bus_current_limit_A',
        'capacitor_current_limit_A',
        'taper_ratio',
        'dead_time_s',
        'trip_margin_ratio',
      ]),
      fast_F: column(trays, (t) => fastCapacitance_F(t.values)),
      foldBack_V: column(trays, (t) => t.values.fold_back_ratio * nominal_V),
    },
    offset,
  );
}
