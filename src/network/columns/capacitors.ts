import { Capacitors } from '../../devices/capacitor/capacitor.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Topology } from '../topology.ts';
import { column } from './column.ts';

/** Output capacitors of shelves, trays and battery shelves, both input capacitors of every sled, shunts of the rack bar. */
export function capacitorsOf(
  { shelves, trays, batteries, sleds, bars }: Scenario,
  { nodeOf, nodes, rackNodes }: Topology,
  offset: number,
): Capacitors {
  const all = [
    ...[...shelves, ...trays, ...batteries].map(({ id, values }) => ({
      name: `${id}.output`,
      node: nodeOf.get(id)!,
      C: values.output_capacitance_F,
      r: values.output_esr_ohm,
    })),
    ...sleds.flatMap(({ id, values }) => [
      { name: `${id}.input`, node: nodeOf.get(id)!, C: values.input_capacitance_F, r: values.input_esr_ohm },
      {
        name: `${id}.ceramic`,
        node: nodeOf.get(id)!,
        C: values.ceramic_capacitance_F,
        r: values.ceramic_esr_ohm,
      },
    ]),
    ...rackNodes.map((node) => ({
      name: `${nodes[node]}.shunt`,
      node,
      C: bars.rackNode.capacitance_F,
      r: bars.rackNode.esr_ohm,
    })),
  ];
  return new Capacitors(
    {
      names: all.map(({ name }) => name),
      node: Int32Array.from(all, ({ node }) => node),
      capacitance_F: column(all, ({ C }) => C),
      esr_ohm: column(all, ({ r }) => r),
    },
    offset,
  );
}
