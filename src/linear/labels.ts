/** What states are called in results, and the size that counts as one of each unit: keeps the algebra in balance. */
import type { Network } from '../network/network.ts';

/** One label for each place of the state vector, for example `S3 voltage integrator`. */
export function stateLabels(network: Network): string[] {
  const labels = new Array<string>(network.stateCount).fill('');
  for (const device of network.devices) {
    device.words.forEach((word, s) => {
      device.names.forEach((name, k) => {
        labels[device.place(device.states[s]!, k)] = `${name} ${word}`;
      });
    });
  }
  return labels;
}

/** Size of a quantity by the unit its name ends in. */
export function scaleOf(name: string): number {
  if (name.endsWith('_A')) return 100;
  if (name.endsWith('_V')) return 0.1;
  if (name.endsWith('_W')) return 5e3;
  return 0.1;
}

export function stateScales(network: Network): Float64Array {
  const scales = new Float64Array(network.stateCount);
  for (const device of network.devices) {
    device.states.forEach((state) => {
      const first = device.place(state, 0);
      scales.fill(scaleOf(state), first, first + device.count);
    });
  }
  return scales;
}
