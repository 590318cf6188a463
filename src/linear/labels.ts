/** What states are called in results, and the size that counts as one of each unit: keeps the algebra in balance. */
import type { Network } from '../network/network.ts';

const words: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  bar: { current_A: 'bar current' },
  capacitor: { voltage_V: 'capacitor' },
  bank: { current_A: 'bank current', voltage_V: 'bank voltage' },
  stage: {
    current_A: 'current lag',
    integrator_A: 'voltage integrator',
    droop_filter_A: 'droop filter',
    // Both states of the all-pass are one delay.
    delay_1_V: 'sensing delay',
    delay_2_V: 'sensing delay',
  },
  intake: { bulk_V: 'bulk voltage', integrator_W: 'power integrator', power_W: 'input power' },
  tray: { power_W: 'power lag', capacitor_V: 'capacitor voltage' },
  sled: { power_W: 'power lag' },
  sensor: { sources_W: 'source filter', trays_W: 'tray filter' },
};

/** One label for each place of the state vector, for example `S3 voltage integrator`. */
export function stateLabels(network: Network): string[] {
  const labels = new Array<string>(network.stateCount).fill('');
  for (const device of network.devices) {
    device.states.forEach((state, s) => {
      const word = words[device.kind]?.[state] ?? state.replaceAll('_', ' ');
      device.names.forEach((name, k) => {
        labels[device.offset + s * device.count + k] = `${name} ${word}`;
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
    device.states.forEach((state, s) => {
      scales.fill(scaleOf(state), device.offset + s * device.count, device.offset + (s + 1) * device.count);
    });
  }
  return scales;
}
