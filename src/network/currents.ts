/**
 * The currents that meet at the nodes: every kind whose units carry one, each from its own place on in the column that a
 * step writes (`Ends.current_A`). What a solve corrects comes last.
 */
import { type Joined, Joints } from '../nodal/joints.ts';
import type { Network } from './network.ts';

/** Kinds in the order in which a node sums them. */
const kinds = ['bars', 'capacitors', 'banks', 'stages', 'trays', 'sleds', 'suppressors'] as const;

type Kind = (typeof kinds)[number];

export interface Currents {
  readonly joints: Joints;
  /** Place of each kind's first unit. */
  readonly at: Readonly<Record<Kind, number>>;
}

export function currentsOf(network: Pick<Network, Kind>, nodeCount: number): Currents {
  const { bars, capacitors, banks, stages, trays, sleds, suppressors } = network;
  const joined: Readonly<Record<Kind, Joined>> = {
    bars: { from: bars.from, into: bars.to },
    capacitors: { into: capacitors.node },
    banks: { into: banks.node },
    stages: { into: stages.node },
    trays: { into: trays.node },
    sleds: { into: sleds.node },
    suppressors: { into: suppressors.columns.node },
  };
  let place = 0;
  const at = Object.fromEntries(
    kinds.map((kind) => {
      const first = place;
      place += joined[kind].into.length;
      return [kind, first];
    }),
  ) as Record<Kind, number>;
  return {
    joints: new Joints(
      nodeCount,
      kinds.map((kind) => joined[kind]),
    ),
    at,
  };
}
