import { Banks } from '../../devices/bank/bank.ts';
import { fastCapacitance_F } from '../../scenario/derived/slow-branch.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column, ids, nodesOf } from './column.ts';

export function banksOf({ banks }: Scenario, topology: Topology, offset: number): Banks {
  return new Banks(
    {
      names: ids(banks),
      node: nodesOf(topology, banks),
      capacitance_F: column(banks, (b) => fastCapacitance_F(b.values)),
      resistance_ohm: column(banks, (b) => b.values.esr_ohm + b.values.connection_ohm),
      inductance_H: column(banks, (b) => b.values.esl_H),
    },
    offset,
  );
}
