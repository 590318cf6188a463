/**
 * The bounds of a bus: outside them the equations still have solutions, but no cabinet does. A constant power has
 * one at any voltage: trays go on pushing when every shelf has latched, up to kilovolts.
 */
import type { Network } from '../network/network.ts';
import type { Stepper } from './stepper.ts';

/** Shares of the nominal voltage: a sled on the bus below the first has collapsed, a node above the second has run away. */
const lowest = 0.5;
const highest = 2;

export interface OutOfBounds {
  readonly name: string;
  readonly voltage_V: number;
  readonly cause: string;
}

/** The first sled or node outside the bounds at the end of the step, or null. */
export function outside(stepper: Stepper, network: Network): OutOfBounds | null {
  const { sleds, scenario, topology } = network;
  const { v1, lowest_V, highest_V } = stepper;
  const floor = lowest * scenario.nominal_V;
  if (lowest_V < floor) {
    for (let k = 0; k < sleds.count; k++) {
      if (!sleds.present[k]) continue;
      const v = v1[sleds.node[k]!]!;
      if (v < floor) return found(sleds.names[k]!, v, 'the bus collapsed');
    }
  }
  const ceiling = highest * scenario.nominal_V;
  if (!(highest_V > ceiling)) return null;
  for (let k = 0; k < v1.length; k++) {
    if (v1[k]! > ceiling) return found(topology.nodes[k]!, v1[k]!, 'the bus ran away');
  }
  return null;
}

function found(name: string, voltage_V: number, what: string): OutOfBounds {
  return { name, voltage_V, cause: `${what}: ${name} at ${voltage_V.toFixed(2)} V` };
}
