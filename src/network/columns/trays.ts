import { Trays } from '../../devices/tray/tray.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, ids, nodesOf } from './column.ts';

export function traysOf({ trays, nominal_V }: Scenario, topology: Topology, offset: number): Trays {
  return new Trays(
    {
      names: ids(trays),
      node: nodesOf(topology, trays),
      capacitance_F: column(trays, (t) => t.values.capacitance_F),
      voltageSlope: column(trays, (t) => t.values.voltage_slope_ratio),
      rated_V: column(trays, (t) => t.values.rated_voltage_V),
      esr_ohm: column(trays, (t) => t.values.esr_ohm),
      leakage_A: column(trays, (t) => t.values.leakage_A),
      low_V: column(trays, (t) => t.values.voltage_low_V),
      high_V: column(trays, (t) => t.values.voltage_high_V),
      lag_s: column(trays, (t) => t.values.power_lag_s),
      slew_W_per_s: column(trays, (t) => t.values.power_slew_W_per_s),
      efficiency: column(trays, (t) => t.values.efficiency_ratio),
      standing_W: column(trays, (t) => t.values.standing_loss_W),
      power_W: column(trays, (t) => t.values.power_limit_W),
      busCurrent_A: column(trays, (t) => t.values.bus_current_limit_A),
      foldBack_V: column(trays, (t) => t.values.fold_back_ratio * nominal_V),
      capacitorCurrent_A: column(trays, (t) => t.values.capacitor_current_limit_A),
      taper: column(trays, (t) => t.values.taper_ratio),
      dead_s: column(trays, (t) => t.values.dead_time_s),
      tripMargin: column(trays, (t) => t.values.trip_margin_ratio),
    },
    offset,
  );
}
