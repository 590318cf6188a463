/** Points at which predicted limit cycles are held against runs. */
import type { Scenario } from '../../src/scenario/scenario.ts';
import { cabinetWith } from './cabinets.ts';
import type { Watched } from './simulated.ts';

export interface CyclePoint {
  readonly element: string;
  readonly shelves: 'one' | 'two';
  readonly words: readonly string[];
  readonly load_W: number;
  readonly watched: Watched;
  readonly push: number;
  readonly length_s: number;
  readonly from_s: number;
  readonly floor: number;
}

const share = ['firmware.share.period=1 ms', 'firmware.share.latency=10 ms'];
const apart = (ratio: string): string[] => [
  `shelves.S1.set_point_offset=${ratio} %`,
  `shelves.S2.set_point_offset=-${ratio} %`,
];
const trim = { shelves: 'two', load_W: 12e3, push: 1e-3, length_s: 1, from_s: 0.5, floor: 1e-5 } as const;
const quantum = { ...trim, element: 'trim quantum', watched: 'trim' } as const;
const band = {
  ...trim,
  element: 'trim dead band',
  watched: 'share error',
  push: 0.025,
  length_s: 1.2,
  from_s: 0.1,
} as const;
const one = { shelves: 'one', push: 1, length_s: 40e-3, from_s: 20e-3 } as const;
const slew = { ...one, element: 'slew limit', load_W: 12e3, watched: 'slew', floor: 0.1 } as const;
const sensor = {
  ...one,
  element: 'voltage sensor quantum',
  load_W: 10e3,
  watched: 'sensed voltage',
  floor: 1e-4,
} as const;
const sampled = [
  'shelves.loop_period=10 us',
  'shelves.loop_latency=10 us',
  'shelves.loop_voltage_bits=9',
  'shelves.loop_voltage_range=60 V',
];
const noBand = 'firmware.share.dead_band=0 %';
const bandAlone = [...share, 'firmware.share.trim_quantum=0 mV', 'firmware.share.trim_limit=3 V'];

export const points: readonly CyclePoint[] = [
  { ...quantum, words: [...share, noBand, ...apart('0.03')] },
  { ...quantum, words: [...share, noBand, ...apart('0.05'), 'firmware.share.time_constant=30 ms'] },
  { ...quantum, words: [noBand, ...apart('0.03')] },
  { ...quantum, words: [...share, ...apart('0.03'), 'firmware.share.dead_band=20 %'] },
  { ...band, words: [...bandAlone, 'firmware.share.dead_band=1 %', 'firmware.share.time_constant=6 ms'] },
  {
    ...band,
    push: 0.018,
    from_s: 0.04,
    words: [...bandAlone, 'firmware.share.dead_band=1 %', 'firmware.share.time_constant=5 ms'],
  },
  { ...slew, words: ['shelves.proportional_gain=2000 A/V', 'shelves.control_delay=100 us'] },
  { ...slew, words: ['shelves.proportional_gain=1500 A/V', 'shelves.control_delay=100 us'] },
  { ...slew, words: [] },
  { ...sensor, words: [...sampled, 'shelves.current_lag=400 us', 'shelves.output_esr=0.02 mΩ'] },
  {
    ...sensor,
    element: 'current command quantum',
    watched: 'current command',
    load_W: 12.057e3,
    words: [
      'shelves.loop_period=10 us',
      'shelves.loop_latency=10 us',
      'shelves.loop_command_quantum=5 A',
      'shelves.current_lag=400 us',
      'shelves.output_esr=0.02 mΩ',
    ],
  },
];

export function scenarioOf({ shelves, words }: CyclePoint): Scenario {
  return cabinetWith(shelves, words);
}
