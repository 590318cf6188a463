/** What the page offers to change first, and what else may be changed. */

import type { ReadScenario } from '../../../src/scenario/read.ts';
import { firmwareTasks, type ParameterTable, unitTables } from '../../../src/scenario/tables.ts';
import { loadPaths } from '../../../src/studies/rating/scales.ts';
import { type Lever, leverOf } from './lever.ts';

export interface Offer {
  readonly groups: readonly { readonly title: string; readonly levers: readonly Lever[] }[];
  /** Every path that a change may name. */
  readonly paths: readonly string[];
  /** Powers of the load with their values: what a scale of the load multiplies. */
  readonly load: readonly Lever[];
  readonly eventUnits: ReadScenario['eventUnits'];
}

/** Keys of a declared table below its place: the compiler refuses one that is not declared. */
function paths<T extends ParameterTable>(
  place: string,
  _table: T,
  ...keys: readonly (keyof T & string)[]
): string[] {
  return keys.map((key) => `${place}.${key}`);
}

const { share, smoothing } = firmwareTasks;

/** Every latency and sampling period of the firmware, by the declared tables. */
const timing = Object.entries<ParameterTable>(firmwareTasks).flatMap(([task, table]) =>
  ['latency', 'period'].flatMap((key) => (key in table ? [`firmware.${task}.${key}`] : [])),
);

const groups: readonly { readonly title: string; readonly paths: readonly string[] }[] = [
  {
    title: 'Storage',
    paths: [
      'trays.count',
      ...paths('trays', unitTables.trays, 'capacitance', 'esr', 'power_limit'),
      ...paths('banks', unitTables.banks, 'capacitance'),
    ],
  },
  {
    title: 'Gains',
    paths: [
      ...paths('firmware.share', share, 'time_constant'),
      ...paths(
        'firmware.smoothing',
        smoothing,
        'time_constant',
        'charge_time',
        'filter_corner',
        'feedback_gain',
      ),
    ],
  },
  { title: 'Latencies and periods', paths: timing },
];

export function offerOf(read: ReadScenario): Offer {
  const levers = (paths: readonly string[]): Lever[] =>
    paths.map((path) => leverOf(path, read)).filter((lever) => lever !== null);
  return {
    groups: groups.map(({ title, paths: named }) => ({ title, levers: levers(named) })),
    paths: read.paths,
    load: levers(loadPaths(read)),
    eventUnits: read.eventUnits,
  };
}
