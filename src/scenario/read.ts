/**
 * A scenario file, the files it names and the changes asked for, to the frozen scenario. Everything wrong is
 * collected and thrown at once as `BadInput`; what is legal but unusual comes back as warnings.
 */
import { BadInput, type Problem } from '../base/problem.ts';
import { assemble, limitRowsOf } from './assemble.ts';
import { type Alteration, added, alter, holding, type Stood } from './changes/alterations.ts';
import { underAskedPaths } from './changes/as-asked.ts';
import { changeModels, isModelChange, modelPaths } from './changes/models.ts';
import { isPlaceChange, placePaths, rearrange } from './changes/places.ts';
import { putInState } from './changes/put-in-state.ts';
import { checkControllers } from './checks/controller-checks.ts';
import { crossCheck } from './checks/cross-checks.ts';
import { unitsOfEvents } from './checks/event-checks.ts';
import { checkGuards } from './checks/guard-checks.ts';
import { refuseOtherKinds } from './checks/other-kinds.ts';
import { checkPorts } from './checks/port-checks.ts';
import { barsFromDimensions } from './derived/bars-from-dimensions.ts';
import { cellsAtTemperature } from './derived/cell-temperature.ts';
import { fallbacksOnBus } from './derived/on-bus.ts';
import type { LimitRow } from './limit-row.ts';
import { stateKindNames, stateKindOf } from './part-states.ts';
import type { Change, EventSpec, LoadSpec, Scenario, Waiver } from './scenario.ts';
import { readCabinet } from './sections/cabinet.ts';
import { readControllers } from './sections/controllers.ts';
import { addEvent, readEvents } from './sections/event-fields.ts';
import { readGains } from './sections/gains-file.ts';
import { readLimitRows } from './sections/limit-rows.ts';
import { limitsNow } from './sections/limits-now.ts';
import { readLoad, recordedFile } from './sections/load.ts';
import { readMonitoring } from './sections/monitoring.ts';
import { readProtection } from './sections/protection.ts';
import { type PlacedChange, readChanges, readRunFields } from './sections/run-fields.ts';
import { readSignOff } from './sections/sign-off.ts';
import type { Structure } from './sections/structure.ts';
import { type Cell, type ModelOfPart, Sheet } from './sheet.ts';
import { type Family, runTable } from './tables.ts';
import { asBranch, inFileOrder, refuseUnknownKeys, required, wordOf } from './text/branches.ts';
import { Desk, type Files } from './text/desk.ts';
import { type Branch, type KeyedValue, type Leaf, readDocument } from './text/document.ts';
import type { Origin } from './text/origin.ts';
import { besideFile } from './text/paths.ts';
import type { Note } from './text/sourced.ts';
import { refuseBrokenTicks } from './ticks.ts';

/** What a change names to be judged by another limits file, or by a specification. */
export const limitsPath = 'limits';

/** A limits file and what it says. */
export interface LimitsText {
  readonly file: string;
  readonly text: string;
}

export interface ReadOptions {
  readonly files: Files;
  /** Applied after the scenario's own changes, in this order. */
  readonly changes?: readonly Change[];
  /** Where a change was asked for, as problems say it, where that is not `--set`: an option, or a place in a file. */
  readonly changesFrom?: (change: Change) => string | Origin | null;
  /** Waivers beside the scenario's own. */
  readonly waivers?: readonly Waiver[];
  /**
   * Replaces the scenario's load by a recorded one: the keys of a `recorded` load and, as `reading.unit` and so
   * on, of its reading. The run then starts settled, whatever the file says.
   */
  readonly recorded?: Readonly<Record<string, string>>;
  /** Of the keys of `recorded` those that nobody stated: a default stands there. */
  readonly assumed?: readonly string[];
  /** Limits as the project ships them, for comparing; without them a scenario is compared with its own file. */
  readonly shippedLimits?: LimitsText;
  /** Documents read before, for who reads the same files many times; filled here. */
  readonly trees?: Map<string, Branch>;
}

export interface ReadScenario {
  readonly scenario: Scenario;
  readonly warnings: readonly Problem[];
  /** Source and corners of every value that still comes from a model, by path. */
  readonly notes: ReadonlyMap<string, Note>;
  /** Every path that a change may name. */
  readonly paths: readonly string[];
  /** Every single value by path, with what it may be. */
  readonly cells: ReadonlyMap<string, Cell>;
  /** The model of each part, by the part's path: `trays.T4`. */
  readonly models: ReadonlyMap<string, ModelOfPart>;
  /** What may happen to which unit of this cabinet. */
  readonly eventUnits: Readonly<Record<EventSpec['what'], readonly string[]>>;
  /** Units of a kind that the cabinet's fill order names: as many as a change such as `trays.count` may ask for. */
  readonly fillable: Readonly<Partial<Record<Family, number>>>;
}

/** What a scenario file may say. */
export const scenarioKeys: readonly string[] = [
  'title',
  'about',
  'expectation',
  'cabinet',
  'gains',
  'controllers',
  ...Object.keys(runTable),
  'start',
  'outage',
  'coincidence',
  'waivers',
  'conditions',
  ...stateKindNames,
  'changes',
  'load',
  'events',
  'monitoring',
  'protection',
];

export function readScenario(file: string, options: ReadOptions): ReadScenario {
  const desk = new Desk(options.files, options.trees);
  const sheet = new Sheet(desk.problems);
  sheet.otherPaths = [...placePaths, limitsPath];
  const root = desk.document(file, null, '');
  if (root === null) throw new BadInput(inFileOrder(desk.problems));

  refuseOtherKinds(root);
  refuseUnknownKeys(root, scenarioKeys, '', desk.problems);
  const words = {
    title: wordRequired(root, 'title', desk),
    about: wordOf(root, 'about', '', desk.problems)?.text ?? '',
    expectation: wordOf(root, 'expectation', '', desk.problems)?.text ?? '',
  };
  readRunFields(root, desk, sheet);
  const stood: Stood = new Map([['start', sheet.cells.get('start')!.value]]);
  const loadKind = readLoadSection(root, options, desk, sheet);
  const eventsWritten = readEvents(root, desk, sheet);
  const ports = readMonitoring(root, desk, sheet);
  const guards = readProtection(file, root, desk, sheet);
  const asked = (options.changes ?? []).map(
    (change): PlacedChange => ({
      ...change,
      origin: originOf(options.changesFrom?.(change) ?? '--set'),
    }),
  );
  const own = readChanges(root, desk);
  const written = readCabinetNamed(file, root, desk, sheet, limitsInstead(file, own, asked));
  const changes = [...readGains(file, root, desk), ...own, ...asked];
  const structure = written === null ? null : rearrange(written, changes.filter(isPlaceChange), sheet);
  if (structure !== null) sheet.otherPaths = [...sheet.otherPaths, ...modelPaths(structure)];
  const modelsBefore =
    structure === null
      ? new Map<PlacedChange, string | null>()
      : changeModels(
          structure,
          changes.filter(isModelChange).map((change) => ({
            change,
            // As with limits: in the scenario's file beside it, anywhere else from where the command was given.
            file: own.includes(change) ? besideFile(file, change.value) : change.value,
          })),
          desk,
          sheet,
        );
  const stated = structure === null ? [] : limitRowsOf(structure.limits, sheet);
  const limitsFile = limitsFileOf(sheet);
  const { eventCount, alterations } =
    structure === null
      ? { eventCount: eventsWritten, alterations: [] }
      : applyChanges({ changes, asked, modelsBefore, stood }, eventsWritten, sheet);
  barsFromDimensions(sheet);
  fallbacksOnBus(sheet);
  cellsAtTemperature(sheet);
  if (loadKind === 'recorded' && sheet.text('load.file') !== null) {
    const origin = sheet.cells.get('load.file')?.origin ?? null;
    desk.noted(recordedFile(file, sheet), origin, 'load.file');
  }
  refuseBrokenTicks(sheet);
  if (structure !== null) crossCheck(structure, loadKind, eventCount, sheet);
  const limitIds = structure?.limits.map(({ id }) => id) ?? null;
  const controllers = readControllers(file, root, desk);
  if (structure !== null) checkControllers(controllers, structure, sheet);
  if (structure !== null) checkPorts(ports, structure, sheet);
  if (structure !== null) checkGuards(guards, structure, eventCount, sheet);
  const signOff = readSignOff(root, limitIds, options.waivers ?? [], desk.problems);

  const problems = inFileOrder(onePerPlace(underAskedPaths(desk.problems, changes)));
  if (problems.some((problem) => problem.severity === 'error') || structure === null || loadKind === null) {
    throw new BadInput(problems);
  }
  const inputs = desk.inputs;
  const limits = limitsNow({
    stated,
    rows: limitRowsOf(structure.limits, sheet),
    file: structure.specification?.file ?? limitsFile,
    alterations,
    // A specification is the yardstick itself: it is not measured by limits of ours.
    shipped:
      structure.specification === null
        ? shippedRows(options.shippedLimits, stated, desk.textOf(limitsFile))
        : null,
  });
  const scenario = assemble(
    {
      file,
      words,
      structure,
      loadKind,
      eventCount,
      changes,
      alterations,
      limits,
      inputs,
      signOff,
      controllers,
      ports,
      guards,
      warnings: problems,
    },
    sheet,
  );
  const notes = new Map<string, Note>();
  for (const [path, { note }] of sheet.cells) if (note !== null) notes.set(path, note);
  let paths: readonly string[] | null = null;
  return {
    scenario,
    warnings: problems,
    notes,
    get paths() {
      paths ??= sheet.paths();
      return paths;
    },
    cells: sheet.cells,
    models: sheet.models,
    eventUnits: unitsOfEvents(structure, sheet),
    fillable: Object.fromEntries([...structure.fill].map(([family, fill]) => [family, fill.length])),
  };
}

/** Rows of the limits that the project ships: those that were stated, where these came out of the same text. */
function shippedRows(
  shipped: LimitsText | undefined,
  stated: readonly LimitRow[],
  text: string | null,
): readonly LimitRow[] | null {
  if (shipped === undefined) return null;
  return text === shipped.text ? stated : readLimitsText(shipped.file, shipped.text);
}

function originOf(place: string | Origin): Origin {
  return typeof place === 'string' ? { file: place, line: 0, column: 0 } : place;
}

function wordRequired(root: Branch, key: string, desk: Desk): string {
  required(root, key, '', 'one line that says what is run', desk.problems);
  return wordOf(root, key, '', desk.problems)?.text ?? '';
}

function readLoadSection(
  root: Branch,
  options: ReadOptions,
  desk: Desk,
  sheet: Sheet,
): LoadSpec['kind'] | null {
  if (options.recorded !== undefined) {
    sheet.put('start', { ...sheet.cells.get('start')!, value: 'settled', origin: null });
    const kind = readLoad(branchOf({ kind: 'recorded', ...options.recorded }), desk, sheet);
    for (const key of options.assumed ?? []) {
      const cell = sheet.cells.get(`load.${key}`);
      if (cell !== undefined) sheet.put(`load.${key}`, { ...cell, origin: null });
    }
    return kind;
  }
  const entry = required(root, 'load', '', 'what the load does', desk.problems);
  const branch = entry === null ? null : asBranch(entry.node, 'load', desk.problems);
  return branch === null ? null : readLoad(branch, desk, sheet);
}

/** Words of the command line as a branch; `reading.unit` goes below `reading`. */
function branchOf(words: Readonly<Record<string, string>>): Branch {
  const origin = { file: 'command line', line: 0, column: 0 };
  const entries = new Map<string, KeyedValue>();
  const reading = new Map<string, KeyedValue>();
  for (const [key, text] of Object.entries(words)) {
    const entry: KeyedValue = { node: { kind: 'leaf', text, origin }, keyOrigin: origin };
    if (key.startsWith('reading.')) reading.set(key.slice('reading.'.length), entry);
    else entries.set(key, entry);
  }
  entries.set('reading', { node: { kind: 'branch', entries: reading, origin }, keyOrigin: origin });
  return { kind: 'branch', entries, origin };
}

/** The limits file that a change names: in the scenario beside it, anywhere else from where the command was given. */
function limitsInstead(
  file: string,
  own: readonly PlacedChange[],
  asked: readonly PlacedChange[],
): Leaf | null {
  const named = (changes: readonly PlacedChange[]): PlacedChange | undefined =>
    changes.findLast(({ path }) => path === limitsPath);
  const change = named(asked);
  if (change !== undefined) return { kind: 'leaf', text: change.value, origin: change.origin };
  const inFile = named(own);
  return inFile === undefined
    ? null
    : { kind: 'leaf', text: besideFile(file, inFile.value), origin: inFile.origin };
}

function readCabinetNamed(
  file: string,
  root: Branch,
  desk: Desk,
  sheet: Sheet,
  limits: Leaf | null,
): Structure | null {
  required(root, 'cabinet', '', 'a cabinet file', desk.problems);
  const name = wordOf(root, 'cabinet', '', desk.problems);
  if (name === null) return null;
  const target = besideFile(file, name.text);
  const cabinet = desk.document(target, name.origin, 'cabinet');
  return cabinet === null ? null : readCabinet(target, cabinet, desk, sheet, limits);
}

interface ToApply {
  readonly changes: readonly PlacedChange[];
  /** Those of them that no file of the scenario says. */
  readonly asked: readonly PlacedChange[];
  readonly modelsBefore: ReadonlyMap<PlacedChange, string | null>;
  readonly stood: Stood;
}

/** An alteration with the change that asked for it. */
interface Applied {
  readonly change: PlacedChange;
  readonly alteration: Alteration;
  /** What it writes over, by path; empty where later ones come beside it. */
  readonly reaches: readonly string[];
}

/** States of parts come last, on top of whatever the others wrote. Gives how many events there are now, and what holds. */
function applyChanges(
  { changes, asked, modelsBefore, stood }: ToApply,
  eventsWritten: number,
  sheet: Sheet,
): { readonly eventCount: number; readonly alterations: Alteration[] } {
  let eventCount = eventsWritten;
  const byOption = new Set(asked);
  const applied = changes.map((change): Applied => {
    const { path, value, origin } = change;
    if (path === 'events.add') {
      eventCount += 1;
      addEvent(value, eventCount, origin, sheet);
      return { change, alteration: added(path, value, origin), reaches: [] };
    }
    if (isModelChange(change)) {
      const from = modelsBefore.get(change) ?? null;
      return { change, alteration: { ...added(path, value, origin), from }, reaches: [path] };
    }
    if (stateKindOf(path) !== null || path === limitsPath)
      return { change, alteration: added(path, value, origin), reaches: [path] };
    if (isPlaceChange(change)) {
      const reaches = path.endsWith('.count') ? [path] : [];
      return { change, alteration: added(path, value, origin), reaches };
    }
    const reaches = sheet.targetsOf(path);
    const alteration = alter(path, value, origin, sheet, byOption.has(change) ? stood : null);
    return { change, alteration, reaches };
  });
  const effects = putInState(changes, sheet);
  const alterations = holding(applied).flatMap(({ change, alteration }): Alteration[] => {
    if (stateKindOf(change.path) === null) return [alteration];
    const makes = effects.get(change);
    if (makes === undefined) return [];
    return makes === '' ? [alteration] : [{ ...alteration, makes }];
  });
  return { eventCount, alterations };
}

/** The rows of a limits file by itself, for comparing a scenario's limits with them. Throws BadInput. */
export function readLimitsText(file: string, text: string): LimitRow[] {
  const sheet = new Sheet([]);
  const root = readDocument(file, text, sheet.problems);
  const heads = root === null ? [] : readLimitRows(root, sheet);
  if (sheet.problems.length > 0) throw new BadInput(inFileOrder(sheet.problems));
  return limitRowsOf(heads, sheet);
}

/** The file whose rows the cabinet is judged by; every row has its columns in the sheet. */
function limitsFileOf(sheet: Sheet): string {
  for (const [path, { origin }] of sheet.cells)
    if (path.startsWith('limits.') && origin !== null) return origin.file;
  return 'no limits file';
}

/** Units of one model share its places: what is wrong there is said once. */
function onePerPlace(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter((p) => {
    if (p.line === undefined) return true;
    const key = [p.file, p.line, p.column, p.found, p.expected].join('\u0000');
    const fresh = !seen.has(key);
    seen.add(key);
    return fresh;
  });
}
