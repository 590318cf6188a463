/** The frozen scenario from the sheet and the cabinet's structure: names get their SI units here. */

import type { Problem } from '../base/problem.ts';
import type { Alteration } from './changes/alterations.ts';
import type { LimitRow } from './limit-row.ts';
import { fieldOf } from './parameter.ts';
import type { BankValues } from './parameters/bank.ts';
import type { BarValues } from './parameters/bar.ts';
import type { BatteryValues } from './parameters/battery.ts';
import type { BrakeValues } from './parameters/brake.ts';
import type { FeederValues } from './parameters/feeder.ts';
import type { HandoverValues } from './parameters/handover.ts';
import type { NodeValues } from './parameters/node.ts';
import type { ShareValues } from './parameters/share.ts';
import type { ShelfValues } from './parameters/shelf.ts';
import type { SledValues } from './parameters/sled.ts';
import type { SmoothingValues } from './parameters/smoothing.ts';
import type { SupervisorValues } from './parameters/supervisor.ts';
import type { TrayValues } from './parameters/tray.ts';
import type { Change, ControllerSpec, InputFile, LoadSpec, Scenario, Unit } from './scenario.ts';
import { eventsOf } from './sections/event-fields.ts';
import type { LimitsNow } from './sections/limits-now.ts';
import { assembleLoad } from './sections/load.ts';
import { portsOf, type WrittenPort } from './sections/monitoring.ts';
import { guardsOf, type WrittenGuard } from './sections/protection.ts';
import type { SignOff } from './sections/sign-off.ts';
import { fittedUnits, type Structure } from './sections/structure.ts';
import type { Sheet } from './sheet.ts';
import {
  barParts,
  type Family,
  firmwareTasks,
  firmwareWords,
  type ParameterTable,
  unitTables,
} from './tables.ts';
import type { Origin } from './text/origin.ts';
import { stemOf } from './text/paths.ts';

export interface SheetWords {
  readonly title: string;
  readonly about: string;
  readonly expectation: string;
}

export interface Assembled {
  readonly file: string;
  readonly words: SheetWords;
  readonly structure: Structure;
  readonly loadKind: LoadSpec['kind'];
  readonly eventCount: number;
  readonly changes: readonly Change[];
  readonly alterations: readonly Alteration[];
  readonly limits: LimitsNow;
  readonly warnings: readonly Problem[];
  readonly inputs: readonly InputFile[];
  readonly signOff: SignOff;
  readonly controllers: readonly ControllerSpec[];
  readonly ports: readonly WrittenPort[];
  readonly guards: readonly WrittenGuard[];
}

export function assemble(parts: Assembled, sheet: Sheet): Scenario {
  const { structure } = parts;
  const { rows: limits, ...limitsBasis } = parts.limits;
  const units = <V>(family: Family): Unit<V>[] =>
    fittedUnits(structure, family, sheet).map(({ text: id }) => ({
      id,
      values: valuesOf<V>(sheet, `${family}.${id}`, unitTables[family]),
    }));
  const weightOf = (id: string): number => sheet.number(`sleds.${id}.weight`);
  const weights = structure.units.get('sleds')!.reduce((sum, { text }) => sum + weightOf(text), 0);
  const scenario: Scenario = {
    id: stemOf(parts.file),
    ...parts.words,
    seed: sheet.number('seed'),
    duration_s: sheet.number('duration'),
    start: sheet.text('start') as Scenario['start'],
    warm_up_s: sheet.number('warm_up'),
    tick_s: sheet.number('tick'),
    step_s: sheet.number('step'),
    outage: sheet.flag('outage'),
    nominal_V: sheet.number('nominal'),
    rated_W: sheet.number('rated'),
    cabinets_on_feeder_count: sheet.number('cabinets_on_feeder'),
    coincidence: sheet.text('coincidence') as Scenario['coincidence'],
    feeders: units<FeederValues>('feeders'),
    sections: structure.sections.map(({ id, order }) => ({ id, order: order.map(({ text }) => text) })),
    bars: assembleBars(structure, sheet),
    shelves: units<ShelfValues>('shelves').map((shelf) => ({
      ...shelf,
      feeder: sheet.text(`shelves.${shelf.id}.feeder`) ?? '',
    })),
    trays: units<TrayValues>('trays'),
    banks: units<BankValues>('banks'),
    batteries: units<BatteryValues>('batteries'),
    sleds: units<SledValues>('sleds').map((sled) => ({ ...sled, share_ratio: weightOf(sled.id) / weights })),
    firmware: {
      share: taskValues<ShareValues>(sheet, 'share'),
      smoothing: taskValues<SmoothingValues>(sheet, 'smoothing'),
      handover: valuesOf<HandoverValues>(sheet, 'firmware.handover', firmwareTasks.handover),
      supervisor: valuesOf<SupervisorValues>(sheet, 'firmware.supervisor', firmwareTasks.supervisor),
      brake: valuesOf<BrakeValues>(sheet, 'firmware.brake', firmwareTasks.brake),
    },
    controllers: parts.controllers,
    load: assembleLoad(parts.loadKind, parts.file, sheet),
    events: eventsOf(parts.eventCount, sheet),
    ...(parts.ports.length === 0 ? {} : { monitoring: portsOf(parts.ports, sheet) }),
    ...(parts.guards.length === 0 ? {} : { protection: guardsOf(parts.guards, sheet) }),
    limits,
    limits_basis: limitsBasis,
    ...(structure.specification === null ? {} : { specification: structure.specification }),
    ...parts.signOff,
    changes: parts.changes.map(({ path, value }) => ({ path, value })),
    alterations: parts.alterations,
    warnings: parts.warnings,
    inputs: parts.inputs,
    origins: originsOf(sheet),
  };
  return deepFreeze(scenario);
}

/** The rows as they stand in the sheet now. */
export function limitRowsOf(heads: Structure['limits'], sheet: Sheet): LimitRow[] {
  return heads.map((head) => ({
    ...head,
    normal: sheet.numberOrNull(`limits.${head.id}.normal`),
    carry: sheet.numberOrNull(`limits.${head.id}.carry`),
    degraded: sheet.numberOrNull(`limits.${head.id}.degraded`),
    stay_s: sheet.numberOrNull(`limits.${head.id}.stay`),
  }));
}

function assembleBars(structure: Structure, sheet: Sheet): Scenario['bars'] {
  const bar = (path: string): BarValues => valuesOf<BarValues>(sheet, path, barParts.segment);
  return {
    segment: bar('bars.segment'),
    rackSegment: bar('bars.rack_segment'),
    contact: bar('bars.contact'),
    rackNode: valuesOf<NodeValues>(sheet, 'bars.rack_node', barParts.rack_node),
    tie:
      structure.tie === null
        ? null
        : { id: structure.tie, ...bar('bars.tie'), closed: sheet.flag('bars.tie.closed') },
    links: structure.links.map(({ id, section }) => ({
      id,
      section: section.text,
      ...bar(`bars.links.${id}`),
      place: sheet.number(`bars.links.${id}.place`),
      rack: sheet.number(`bars.links.${id}.rack`),
      closed: sheet.flag(`bars.links.${id}.closed`),
    })),
  };
}

function valuesOf<V>(sheet: Sheet, path: string, table: ParameterTable): V {
  const values: Record<string, number> = {};
  for (const [key, spec] of Object.entries(table))
    values[fieldOf(key, spec)] = sheet.number(`${path}.${key}`);
  return values as V;
}

/** Numbers and words of a firmware task. */
function taskValues<V>(sheet: Sheet, task: keyof typeof firmwareTasks): V {
  const path = `firmware.${task}`;
  const words = Object.keys(firmwareWords[task] ?? {}).map((key) => [key, sheet.text(`${path}.${key}`)]);
  return { ...valuesOf<V>(sheet, path, firmwareTasks[task]), ...Object.fromEntries(words) };
}

function originsOf(sheet: Sheet): ReadonlyMap<string, Origin> {
  const origins = new Map<string, Origin>();
  for (const [path, { origin }] of sheet.cells) if (origin !== null) origins.set(path, origin);
  return origins;
}

function deepFreeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  for (const inner of Object.values(value)) deepFreeze(inner);
  return Object.freeze(value);
}
