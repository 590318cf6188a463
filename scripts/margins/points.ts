/** Points of gain, delay, ESR and load at which margins are held against other ways to find them. */
import type { Scenario } from '../../src/scenario/scenario.ts';
import { shipped } from '../../tests/linear/scenario.ts';

export interface Point {
  readonly words: readonly string[];
  readonly load_W: number;
}

export const points: readonly Point[] = [
  { words: [], load_W: 240e3 },
  { words: ['shelves.control_delay=60 us'], load_W: 240e3 },
  { words: ['shelves.control_delay=80 us'], load_W: 240e3 },
  { words: ['shelves.output_esr=0.1 mΩ'], load_W: 240e3 },
  { words: ['shelves.proportional_gain=400 A/V'], load_W: 240e3 },
  { words: ['shelves.proportional_gain=150 A/V', 'shelves.integral_gain=1e5 A/(V s)'], load_W: 100e3 },
  { words: ['shelves.control_delay=0 us'], load_W: 200e3 },
  { words: ['shelves.control_delay=100 us'], load_W: 120e3 },
  { words: ['shelves.output_esr=0.5 mΩ'], load_W: 40e3 },
  { words: ['shelves.output_esr=1.3 mΩ', 'shelves.control_delay=45 us'], load_W: 160e3 },
  { words: ['bars.tie.closed=false'], load_W: 240e3 },
  { words: ['shelves.S3.control_delay=70 us'], load_W: 220e3 },
  { words: ['shelves.droop=1.2 mΩ', 'shelves.proportional_gain=330 A/V'], load_W: 180e3 },
  { words: ['shelves.output_capacitance=12 mF', 'shelves.control_delay=50 us'], load_W: 80e3 },
  { words: ['shelves.loop_period=50 us', 'shelves.loop_latency=25 us'], load_W: 240e3 },
  { words: ['shelves.loop_period=20 us', 'shelves.loop_latency=20 us'], load_W: 160e3 },
  { words: ['shelves.loop_period=80 us'], load_W: 240e3 },
];

export function scenarioAt({ words }: Point): Scenario {
  return shipped('single-step', ...words);
}

/** How a point is named in what is printed. */
export function nameOf({ words, load_W }: Point): string {
  return [...words, `${load_W / 1e3} kW`].join(', ');
}

/** The scenario with the gains of the voltage loop of the shelf named, or of all, times a factor. */
export function scaledBy(scenario: Scenario, factor: number, shelf: string | null): Scenario {
  return {
    ...scenario,
    shelves: scenario.shelves.map((one) =>
      shelf !== null && one.id !== shelf
        ? one
        : {
            ...one,
            values: {
              ...one.values,
              proportional_gain_A_per_V: factor * one.values.proportional_gain_A_per_V,
              integral_gain_A_per_Vs: factor * one.values.integral_gain_A_per_Vs,
            },
          },
    ),
  };
}
