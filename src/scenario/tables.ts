/** Which parameters each part of a scenario has: the schema, declared once. */

import type { ParameterSpec, WordSpec } from './parameter.ts';
import { bankParameters } from './parameters/bank.ts';
import { barParameters } from './parameters/bar.ts';
import { batteryParameters } from './parameters/battery.ts';
import { brakeParameters } from './parameters/brake.ts';
import { feederParameters } from './parameters/feeder.ts';
import { figureParameters } from './parameters/figures.ts';
import { handoverParameters } from './parameters/handover.ts';
import { nodeParameters } from './parameters/node.ts';
import { shareParameters, shareWords } from './parameters/share.ts';
import { shelfParameters } from './parameters/shelf.ts';
import { sledParameters } from './parameters/sled.ts';
import { smoothingParameters, smoothingWords } from './parameters/smoothing.ts';
import { supervisorParameters } from './parameters/supervisor.ts';
import { trayParameters } from './parameters/tray.ts';
import { type FieldSpec, quantity } from './text/field.ts';

export type ParameterTable = Readonly<Record<string, ParameterSpec>>;

export type WordTable = Readonly<Record<string, WordSpec>>;

/** The kinds of unit, by the section of the cabinet file that holds them. */
export const unitTables = {
  feeders: feederParameters,
  shelves: shelfParameters,
  trays: trayParameters,
  banks: bankParameters,
  batteries: batteryParameters,
  sleds: sledParameters,
} as const satisfies Readonly<Record<string, ParameterTable>>;

export type Family = keyof typeof unitTables;

export const families: readonly Family[] = Object.keys(unitTables) as Family[];

/** Families whose units stand on the cabinet bar. */
export const placedFamilies: readonly Family[] = ['shelves', 'trays', 'banks', 'batteries'];

/** Every number that a unit of a kind may state: what a run needs, and of what stands on the bar its figures. */
export function numbersOf(family: Family): ParameterTable {
  return placedFamilies.includes(family)
    ? { ...unitTables[family], ...figureParameters }
    : unitTables[family];
}

/** What a model file of each kind says in its `model:` line. */
export const modelOf: Readonly<Record<Family, string>> = {
  feeders: 'feeder',
  shelves: 'shelf',
  trays: 'tray',
  banks: 'bank',
  batteries: 'battery',
  sleds: 'sled',
};

export const barParts = {
  segment: barParameters,
  rack_segment: barParameters,
  contact: barParameters,
  rack_node: nodeParameters,
  tie: barParameters,
  link: barParameters,
} as const satisfies Readonly<Record<string, ParameterTable>>;

export const firmwareTasks = {
  share: shareParameters,
  smoothing: smoothingParameters,
  handover: handoverParameters,
  supervisor: supervisorParameters,
  brake: brakeParameters,
} as const satisfies Readonly<Record<string, ParameterTable>>;

/** Parameters of the firmware tasks that are words, not quantities. */
export const firmwareWords: Readonly<Partial<Record<keyof typeof firmwareTasks, WordTable>>> = {
  share: shareWords,
  smoothing: smoothingWords,
};

/** The field of a word. */
export function choiceOf({ of, means }: WordSpec): FieldSpec {
  return { kind: 'choice', of, means };
}

/** Of a sled: its share of the load is its weight over the sum of all weights. */
export const weight: ParameterSpec = {
  dimension: 'ratio',
  symbol: '—',
  means: "sled's part of the load, over the sum of all parts",
  min: 0,
  max: 1e6,
};

/** Of a unit on the cabinet bar: without it the unit is not there and its place stays a bare piece of bar. */
export const fitted: FieldSpec = { kind: 'flag', means: 'the unit is there' };

export const closed: FieldSpec = { kind: 'flag', means: 'carries current' };

const number = (means: string): FieldSpec =>
  quantity({ dimension: 'count', symbol: '—', means, min: 1, max: 10_000 });

export const linkPlace: FieldSpec = number('place along the section, 1 next to the link end');
export const linkRack: FieldSpec = number('node of the rack bar, 1 is the first');

/** What the cabinet as a whole states. */
export const cabinetTable = {
  nominal: {
    dimension: 'voltage',
    symbol: 'V_n',
    means: 'nominal bus voltage; limits are shares of it',
    min: 1,
    max: 2000,
  },
  rated: {
    dimension: 'power',
    symbol: 'P_n',
    means: 'rated power of the cabinet',
    min: 0,
    max: 1e9,
    exclusive: true,
  },
} as const satisfies ParameterTable;

/** What a scenario states about its run. */
export const runTable = {
  duration: {
    dimension: 'time',
    symbol: '—',
    means: 'length of the run',
    min: 0,
    max: 1e6,
    exclusive: true,
    ticks: true,
  },
  warm_up: {
    dimension: 'time',
    symbol: '—',
    means: 'left out of metrics and findings',
    min: 0,
    max: 1e6,
    fallback: 0,
    ticks: true,
  },
  step: {
    dimension: 'time',
    symbol: '—',
    means: 'default step of the ladder',
    min: 0,
    max: 0.01,
    exclusive: true,
    usual: [1e-6, 2e-4],
    fallback: 5e-5,
    ticks: true,
  },
  tick: {
    dimension: 'time',
    symbol: '—',
    means: 'smallest unit of time',
    min: 1e-9,
    max: 1e-3,
    usual: [1e-8, 1e-6],
    fallback: 2.5e-7,
  },
  seed: { dimension: 'count', symbol: '—', means: 'seed of all draws', min: 0, max: 2 ** 31, fallback: 1 },
  cabinets_on_feeder: {
    dimension: 'count',
    symbol: 'n',
    means: 'cabinets like this one at the same point of connection',
    min: 1,
    max: 10_000,
    fallback: 1,
  },
} as const satisfies ParameterTable;
