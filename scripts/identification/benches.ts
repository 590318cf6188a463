/** The benches for identification: which channels an instrument reads there, and the cabinet that is behind a reading. */
import type { Change } from '../../src/scenario/scenario.ts';

export interface IdentificationBench {
  /** Name of its scenario, and of its measurement in scenarios/measured. */
  readonly name: string;
  /** What differs from the models on the bench that was measured: invented, and what a fit is to find. */
  readonly truth: readonly Change[];
  readonly probes: readonly Probe[];
  /** From the start of the run to the first stamp, and from one stamp to the next [s]. */
  readonly at_s: number;
  readonly interval_s: number;
}

export interface Probe {
  readonly channel: string;
  /** What reads it, in the words of `--sensor`; instants where nothing is said. */
  readonly sensor?: string;
  /** Standard deviation of a reading, in the channel's unit; and how many decimals the instrument writes. */
  readonly noise: number;
  readonly decimals: number;
}

const bus: Probe = { channel: 'A.S1.voltage_V', noise: 0.004, decimals: 3 };
const shelf: Probe = { channel: 'S1.current_A', noise: 0.5, decimals: 1 };

export const identificationBenches: readonly IdentificationBench[] = [
  {
    name: 'bench-step',
    truth: [
      { path: 'shelves.droop', value: '0.712 mΩ' },
      { path: 'banks.capacitance', value: '75 mF' },
    ],
    probes: [bus, shelf],
    at_s: 0.01,
    interval_s: 0.001,
  },
  {
    name: 'bench-sweep',
    truth: [
      { path: 'shelves.droop', value: '0.675 mΩ' },
      { path: 'shelves.output_capacitance', value: '16.6 mF' },
    ],
    probes: [
      { ...bus, sensor: 'divider, averaging 1 ms' },
      { ...shelf, sensor: 'shunt, averaging 1 ms' },
    ],
    at_s: 0.02,
    interval_s: 0.001,
  },
  {
    name: 'bench-discharge',
    truth: [
      { path: 'trays.capacitance', value: '171 F' },
      { path: 'trays.esr', value: '2.7 mΩ' },
    ],
    probes: [
      { channel: 'T1.capacitor_V', sensor: 'divider, corner 100 Hz', noise: 0.01, decimals: 2 },
      { channel: 'T1.capacitor_current_A', sensor: 'shunt, corner 100 Hz', noise: 1, decimals: 1 },
    ],
    at_s: 0.05,
    interval_s: 0.002,
  },
];
