/**
 * The voltage of a node right after something there has jumped. A step that began at the voltage before the jump would
 * carry half the step's worth of it into every bar at the node: an error of first order in the step, and at a node of
 * inductors alone one that stays, once above and once below.
 */
import type { Network } from '../../network/network.ts';
import type { Stepper } from '../stepper.ts';

/** Difference over which the slope of a node's current is taken, over nominal: what is drawn bends over some per cent of it. */
const apart_ratio = 2e-6;

/** Rounds of Newton: all but constant-power loads are linear in the voltage. */
const rounds = 5;

/** Levels `node`; the states of everything at it are kept. */
export function levelNode(network: Network, stepper: Stepper, node: number): void {
  if (network.capacitors.node.includes(node)) levelByCurrents(network, stepper, node);
  else levelBySlopes(network, stepper, node);
  stepper.forget();
}

/** A node with capacitors: the voltage at which the currents into it sum to zero. */
function levelByCurrents({ devices, nodeCount, scenario }: Network, { x0, v0 }: Stepper, node: number): void {
  const into = new Float64Array(nodeCount);
  const apart_V = apart_ratio * scenario.nominal_V;
  const at = (v: number): number => {
    v0[node] = v;
    into.fill(0);
    for (const device of devices) device.inject(into, x0, v0);
    return into[node]!;
  };
  let v = v0[node]!;
  for (let round = 0; round < rounds; round++) {
    const current_A = at(v);
    v -= (current_A * apart_V) / (at(v + apart_V) - current_A);
  }
  v0[node] = v;
}

/** A node that carries inductors only: the voltage that makes the derivatives of their currents sum to zero. */
function levelBySlopes(network: Network, stepper: Stepper, node: number): void {
  const { bars, banks } = network;
  const { x0, v0 } = stepper;
  let slope = 0;
  let weight = 0;
  for (let k = 0; k < bars.count; k++) {
    const from = bars.from[k]!;
    const to = bars.to[k]!;
    if (from !== node && to !== node) continue;
    const drive = bars.drive_per_H[k]!;
    const i = bars.current_A(k, x0);
    const into = to === node ? i : -i;
    slope += drive * v0[to === node ? from : to]! - bars.decay_per_s[k]! * into;
    weight += drive;
  }
  for (let k = 0; k < banks.count; k++) {
    if (banks.node[k] !== node) continue;
    slope += banks.rise_A_per_s(k, x0);
    weight += 1 / banks.inductance_H[k]!;
  }
  if (weight > 0) v0[node] = slope / weight;
}
