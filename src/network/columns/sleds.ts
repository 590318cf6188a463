import { Sleds } from '../../devices/sled/sled.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, ids, nodesOf } from './column.ts';

export function sledsOf({ sleds, nominal_V }: Scenario, topology: Topology, offset: number): Sleds {
  return new Sleds(
    {
      names: ids(sleds),
      node: nodesOf(topology, sleds),
      lag_s: column(sleds, (s) => s.values.power_lag_s),
      constantPower_V: column(sleds, (s) => s.values.constant_power_voltage_V),
      share: column(sleds, (s) => s.share_ratio),
      constantCurrent: column(sleds, (s) => s.values.constant_current_ratio),
      nominal_V: column(sleds, () => nominal_V),
    },
    offset,
  );
}
