/**
 * The voltage of a node that carries inductors only, right after something there has jumped: it is the one that makes
 * the derivatives of their currents sum to zero. A step that started from the voltage before the jump would carry the
 * difference on from step to step, once above and once below.
 */
import type { Network } from '../../network/network.ts';
import type { Stepper } from '../stepper.ts';

export function levelBareNode(network: Network, stepper: Stepper, node: number): void {
  const { bars, banks, capacitors } = network;
  const { x0, v0 } = stepper;
  if (capacitors.node.includes(node)) return;
  let slope = 0;
  let weight = 0;
  for (let k = 0; k < bars.count; k++) {
    const from = bars.from[k]!;
    const to = bars.to[k]!;
    if (from !== node && to !== node) continue;
    const drive = bars.drive_per_H[k]!;
    const into = to === node ? x0[bars.offset + k]! : -x0[bars.offset + k]!;
    slope += drive * v0[to === node ? from : to]! - bars.decay_per_s[k]! * into;
    weight += drive;
  }
  for (let k = 0; k < banks.count; k++) {
    if (banks.node[k] !== node) continue;
    const i = x0[banks.offset + k]!;
    const u = x0[banks.offset + banks.count + k]!;
    slope += (u - banks.resistance_ohm[k]! * i) / banks.inductance_H[k]!;
    weight += 1 / banks.inductance_H[k]!;
  }
  if (weight > 0) v0[node] = slope / weight;
  stepper.forget();
}
