/** What benches are made of for placing: scenarios, the channels that are read there, and other cabinets than the model's. */
import type { Change } from '../../src/scenario/scenario.ts';
import { identificationBenches } from '../identification/benches.ts';

export interface Stand {
  readonly name: string;
  readonly changes: readonly Change[];
  readonly channels: readonly string[];
  /** From one stamp to the next; one of them is drawn [s]. */
  readonly intervals_s: readonly number[];
  /** Other cabinets than the one that is laid beside. */
  readonly others: readonly (readonly Change[])[];
}

const usual_s = [0.001, 0.002, 0.005];

const otherCabinets: readonly (readonly Change[])[] = [
  [{ path: 'shelves.droop', value: '0.9 mΩ' }],
  [{ path: 'firmware.smoothing.time_constant', value: '1.5 s' }],
  [{ path: 'trays.capacitance', value: '80 F' }],
  [{ path: 'firmware.smoothing.time_constant', value: '5 s' }],
  [
    { path: 'shelves.droop', value: '0.5 mΩ' },
    { path: 'banks.esr', value: '3 mΩ' },
  ],
];

const otherBenches: readonly (readonly Change[])[] = [
  [{ path: 'shelves.droop', value: '0.9 mΩ' }],
  [
    { path: 'shelves.output_capacitance', value: '26 mF' },
    { path: 'banks.capacitance', value: '40 mF' },
  ],
  [
    { path: 'trays.capacitance', value: '120 F' },
    { path: 'trays.esr', value: '5 mΩ' },
  ],
  [{ path: 'shelves.integral_gain', value: '2.4e5 A/(V s)' }],
];

export const stands: readonly Stand[] = [
  {
    name: 'single-step',
    changes: [],
    channels: ['A.S1.voltage_V', 'S1.current_A', 'total.ac_power_W'],
    intervals_s: usual_s,
    others: otherCabinets,
  },
  {
    name: 'training-iterations',
    changes: [
      { path: 'duration', value: '8 s' },
      { path: 'warm_up', value: '1 s' },
    ],
    channels: ['A.S1.voltage_V', 'total.ac_power_W'],
    intervals_s: usual_s,
    others: otherCabinets,
  },
  {
    name: 'step-ladder',
    changes: [{ path: 'duration', value: '6 s' }],
    channels: ['A.S1.voltage_V', 'S1.current_A'],
    intervals_s: usual_s,
    others: otherCabinets,
  },
  {
    name: 'pulse-train',
    changes: [{ path: 'duration', value: '12 s' }],
    channels: ['A.S1.voltage_V', 'S1.current_A'],
    intervals_s: usual_s,
    others: otherCabinets,
  },
  ...identificationBenches.map(({ name, probes }) => ({
    name,
    changes: [],
    channels: probes.map(({ channel }) => channel),
    intervals_s: [1e-4, ...usual_s],
    others: otherBenches,
  })),
];
