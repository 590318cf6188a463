import { Sleds } from '../../devices/sled/sled.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, columnsOf, ids, nodesOf } from './column.ts';

export function sledsOf({ sleds, nominal_V }: Scenario, topology: Topology, offset: number): Sleds {
  return new Sleds(
    {
      names: ids(sleds),
      node: nodesOf(topology, sleds),
      ...columnsOf(sleds, ['power_lag_s', 'constant_power_voltage_V', 'constant_current_ratio']),
      share_ratio: column(sleds, (s) => s.share_ratio),
      nominal_V: column(sleds, () => nominal_V),
    },
    offset,
  );
}
