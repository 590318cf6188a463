/**
 * The currents that meet at the nodes: every kind whose units carry one, each from its own place on in the column that a
 * step writes (`Ends.current_A`). What a solve corrects comes last.
 */
import type { Banks } from '../devices/bank/bank.ts';
import type { Bars } from '../devices/bar/bar.ts';
import type { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Stages } from '../devices/stage/stage.ts';
import type { Suppressors } from '../devices/suppressor/suppressor.ts';
import type { Trays } from '../devices/tray/tray.ts';
import { type Joined, Joints } from '../nodal/joints.ts';

/** Kinds that carry currents. */
export interface Carrying {
  readonly bars: Bars;
  readonly capacitors: Capacitors;
  readonly banks: Banks;
  readonly stages: Stages;
  readonly trays: Trays;
  readonly sleds: Sleds;
  readonly suppressors: Suppressors;
}

type Kind = keyof Carrying;

/** In the order in which a node sums them. */
const kinds: readonly Kind[] = ['bars', 'capacitors', 'banks', 'stages', 'trays', 'sleds', 'suppressors'];

export interface Currents {
  readonly joints: Joints;
  /** Place of each kind's first unit. */
  readonly at: Readonly<Record<Kind, number>>;
}

export function currentsOf(carrying: Carrying, nodeCount: number): Currents {
  const { bars, capacitors, banks, stages, trays, sleds, suppressors } = carrying;
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
