/** The model files of a drafted cabinet: copies of shipped ones, and those that are like them but for size or voltage. */
import { type Dimension, formatQuantity } from '../../base/quantity.ts';
import { firmwareShape } from '../../scenario/sections/cabinet.ts';
import { unitShape } from '../../scenario/sections/units.ts';
import { type Family, firmwareTasks, modelOf, unitTables } from '../../scenario/tables.ts';
import { type Batch, countOf, type Draft, idle_ratio, totalOf } from './answers.ts';
import { firmwareVoltLaws, sizeLaws } from './by-size.ts';
import {
  likeOf,
  likeText,
  type OwnNumber,
  ownText,
  type Shipped,
  scaledLines,
  shippedModel,
} from './derived-model.ts';
import type { SizedFamily } from './kits.ts';

/** Breakers as they are usually made: the rated currents of IEC 60059, from 63 A on (from memory). */
const breakers_A = [63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500];

/** Files of the draft by name; `of` gives the file of a batch, `feeder` and `firmware` those of the whole. */
export interface DraftedModels {
  readonly files: Readonly<Record<string, string>>;
  of(family: SizedFamily, batch: Batch): string;
  readonly feeder: string;
  readonly firmware: string;
}

/** `schemas`: folder of the JSON Schemas, as the files name it. */
export function draftedModels(draft: Draft, shipped: Shipped, schemas: string): DraftedModels {
  const files: Record<string, string> = {};
  const { kit } = draft;
  const copy = (name: string): string => {
    files[`models/${name}`] ??= shipped(name).replaceAll('$schema=../dist/schemas', `$schema=../${schemas}`);
    const base = likeOf(shipped(name));
    if (base !== null) copy(base);
    return `models/${name}`;
  };
  for (const name of ['limits-default.yaml', kit.bars, kit.firmware]) copy(name);
  const volts = draft.nominal_V / kit.nominal_V;
  const of = (family: SizedFamily, { size }: Batch): string => {
    const like = copy(kit.units[family]);
    const by = { size: size / kit.sizes[family], volts };
    const model = shippedModel(kit.units[family], shipped, unitShape(family));
    const dimension = (key: string): Dimension => dimensionIn(unitTables[family], key);
    const lines = scaledLines(model, dimension, sizeLaws[family], by, like);
    if (lines.size === 0) return like;
    const sized = formatQuantity(size, family === 'banks' ? 'capacitance' : 'power');
    const name = `${modelOf[family]}-${sized.replaceAll(' ', '').toLowerCase()}.yaml`;
    const title = `${words[family]}, ${sized}, for a bus of ${formatQuantity(draft.nominal_V, 'voltage')}`;
    files[name] = likeText({ kind: modelOf[family], title, like, schema: schemas }, [
      'parameters:',
      ...[...lines].map(([key, text]) => `  ${key}: ${text}`),
    ]);
    return name;
  };
  for (const family of Object.keys(kit.units) as SizedFamily[])
    for (const batch of draft[family]) of(family, batch);
  files['feeder.yaml'] = feederText(draft, copy('feeder-400v-50hz.yaml'), schemas);
  files['firmware.yaml'] = firmwareText(draft, volts, shipped, schemas);
  return { files, of, feeder: 'feeder.yaml', firmware: 'firmware.yaml' };
}

const words: Readonly<Record<SizedFamily, string>> = {
  sleds: 'Compute sled',
  shelves: 'Rectifier shelf',
  trays: 'Supercapacitor tray',
  banks: 'Capacitor bank',
  batteries: 'Battery shelf',
};

function dimensionIn(table: (typeof unitTables)[Family], key: string): Dimension {
  return (table as Readonly<Record<string, { readonly dimension: Dimension }>>)[key]!.dimension;
}

/** Of all losses and the power factor, and what a breaker carries for good. */
const feeding = { efficiency: 0.95, powerFactor: 0.99, fill: 0.8 } as const;

function feederText(draft: Draft, like: string, schemas: string): string {
  const { sleds, shelves, line_V, frequency_Hz, sections } = draft;
  // Shelves share alike: a feeder with one more of them than the other carries more.
  const share = Math.ceil(countOf(shelves) / sections) / countOf(shelves);
  const input_W = (totalOf(sleds) * share) / feeding.efficiency / feeding.powerFactor;
  const current_A = input_W / (Math.sqrt(3) * line_V);
  const breaker_A =
    breakers_A.find((rating) => rating * feeding.fill >= current_A) ?? Math.ceil(current_A / feeding.fill);
  const asked = 'as asked for';
  const own: Readonly<Record<string, OwnNumber>> = {
    line_voltage: { value: formatQuantity(line_V, 'voltage'), why: asked },
    frequency: { value: formatQuantity(frequency_Hz, 'frequency'), why: asked },
    breaker_current: {
      value: formatQuantity(breaker_A, 'current'),
      why: `next rating of IEC 60059 of which ${Math.round(current_A)} A, the peak load by the most shelves that one feeds, are at most 80 %`,
    },
  };
  const line = (key: string): string => {
    const text = ownText(own[key]!);
    if (key !== 'line_voltage') return `  ${key}: ${text}`;
    const [low, high] = [0.9, 1.1].map((x) => formatQuantity(x * line_V, 'voltage', 5));
    return `  ${key}: ${text.replace(', source', `, low: ${low}, high: ${high}, source`)}`;
  };
  const title = `AC feeder, ${formatQuantity(line_V, 'voltage')} line to line, ${formatQuantity(frequency_Hz, 'frequency')}`;
  return likeText({ kind: 'feeder', title, like, schema: schemas }, [
    'parameters:',
    ...Object.keys(own).map(line),
  ]);
}

function firmwareText(draft: Draft, volts: number, shipped: Shipped, schemas: string): string {
  const like = `models/${draft.kit.firmware}`;
  const model = shippedModel(draft.kit.firmware, shipped, firmwareShape);
  const tables: Readonly<Record<string, (typeof unitTables)[Family]>> = firmwareTasks as never;
  const dimension = (path: string): Dimension => {
    const [task = '', key = ''] = path.split('.');
    return dimensionIn(tables[task]!, key);
  };
  const lines = scaledLines(model, dimension, firmwareVoltLaws, { size: 1, volts }, like);
  for (const [path, own] of Object.entries(tunedTo(draft))) lines.set(path, ownText(own));
  const tasks = new Set([...lines.keys()].map((path) => path.split('.')[0]!));
  const held = [...tasks].flatMap((task) => [
    `  ${task}:`,
    ...[...lines]
      .filter(([path]) => path.startsWith(`${task}.`))
      .map(([path, text]) => `    ${path.split('.')[1]}: ${text}`),
  ]);
  const title = `Firmware of a cabinet of ${formatQuantity(totalOf(draft.sleds), 'power')}`;
  return likeText({ kind: 'firmware', title, like, schema: schemas }, ['tasks:', ...held]);
}

/**
 * What the firmware is tuned to: the range of the load, what charging may take. The smoothing time stays: the limit of the ramp,
 * a share of rated power a second, asks for it at any size.
 */
function tunedTo(draft: Draft): Readonly<Record<string, OwnNumber>> {
  const rated_W = totalOf(draft.sleds);
  const power = (x: number): string => formatQuantity(x, 'power', 4);
  const own: Record<string, OwnNumber> = {
    'smoothing.load_low': { value: power(idle_ratio * rated_W), why: 'idle sleds, 13 % of their peak' },
    'smoothing.load_high': { value: power(rated_W), why: 'rated power' },
    'smoothing.source_ramp': {
      value: formatQuantity(rated_W / 3, 'power_rate', 4),
      why: 'a third of the rated power a second, as the limit of the ramp',
    },
    'handover.charge_budget': { value: power(rated_W / 16), why: 'a sixteenth of the rated power' },
  };
  if (countOf(draft.trays) === 0) return own;
  const smallest_W = Math.min(...draft.trays.map((batch) => batch.size));
  own['smoothing.charge_power_limit'] = { value: power(smallest_W / 10), why: 'a tenth of a tray' };
  return own;
}
