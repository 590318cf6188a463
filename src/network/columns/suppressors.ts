import { Suppressors } from '../../devices/suppressor/suppressor.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { columnsOf, ids, nodesOf } from './column.ts';

/** One for each sled that has a breakdown voltage. */
export function suppressorsOf({ sleds }: Scenario, topology: Topology, offset: number): Suppressors {
  const fitted = sleds.filter(({ values }) => values.suppressor_voltage_V > 0);
  return new Suppressors(
    {
      names: ids(fitted),
      node: nodesOf(topology, fitted),
      ...columnsOf(fitted, [
        'suppressor_voltage_V',
        'suppressor_resistance_ohm',
        'suppressor_cooling_s',
        'suppressor_energy_J',
      ]),
    },
    offset,
  );
}
