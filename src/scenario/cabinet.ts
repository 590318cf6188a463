/** The cabinet file: which units there are, where they stand, what joins them; their values go to the sheet. */
import { asBranch, asLeaf, asWords, joined, refuseUnknownKeys, required } from './branches.ts';
import type { Desk } from './desk.ts';
import { type Branch, type Leaf, type Node, problemAt } from './document.ts';
import { type FieldSpec, quantity } from './field.ts';
import { type LimitHead, readLimitRows } from './limit-rows.ts';
import { type Model, type ModelShape, readModel, readModelValue } from './model.ts';
import { besideFile } from './paths.ts';
import type { Origin } from './scenario.ts';
import type { Sheet } from './sheet.ts';
import {
  barParts,
  cabinetTable,
  closed,
  type Family,
  families,
  firmwareTasks,
  fitted,
  linkPlace,
  linkRack,
  modelOf,
  ownPower,
  placedFamilies,
  unitTables,
  weight,
} from './tables.ts';

/** Names of the units of a kind that are there: those on the cabinet bar may be left out by `fitted: no`. */
export function fittedUnits(structure: Structure, family: Family, sheet: Sheet): Leaf[] {
  return structure.units
    .get(family)!
    .filter(({ text }) => sheet.cells.get(`${family}.${text}.fitted`)?.value !== false);
}

/** What the cabinet consists of; every number of it is in the sheet. */
export interface Structure {
  readonly units: ReadonlyMap<Family, readonly Leaf[]>;
  readonly sections: readonly { readonly id: string; readonly order: readonly Leaf[] }[];
  readonly links: readonly { readonly id: string; readonly section: Leaf }[];
  readonly tie: string | null;
  readonly limits: readonly LimitHead[];
}

const cabinetKeys = [
  'cabinet',
  'title',
  'about',
  'nominal',
  'rated',
  ...families,
  'sections',
  'bars',
  'firmware',
  'limits',
];

export function readCabinet(file: string, root: Branch, desk: Desk, sheet: Sheet): Structure {
  const { problems } = desk;
  refuseUnknownKeys(root, cabinetKeys, '', problems);
  required(root, 'cabinet', '', 'the name of the cabinet', problems);
  for (const [key, spec] of Object.entries(cabinetTable)) {
    const entry = required(root, key, '', spec.means, problems);
    const value = entry === null ? null : readModelValue(entry.node, quantity(spec), key, problems);
    if (value !== null) sheet.put(key, { field: quantity(spec), ...value });
  }
  const units = new Map<Family, Leaf[]>();
  for (const family of families) units.set(family, readUnits(file, root, family, desk, sheet));
  const feeders = units.get('feeders')!.map((leaf) => leaf.text);
  checkFeeders(units.get('shelves')!, feeders, root, desk, sheet);
  return {
    units,
    sections: readSections(root, desk),
    ...readBars(file, root, desk, sheet),
    limits: readFirmwareAndLimits(file, root, desk, sheet),
  };
}

/** Opens the model file that a leaf names. */
function modelAt(
  file: string,
  name: Leaf,
  shape: ModelShape,
  path: string,
  desk: Desk,
  cache: Map<string, Model>,
): Model | null {
  const target = besideFile(file, name.text);
  const known = cache.get(target);
  if (known !== undefined) return known;
  const root = desk.document(target, name.origin, path);
  const model = root === null ? null : readModel(root, shape, desk.problems);
  if (model !== null) cache.set(target, model);
  return model;
}

function readUnits(file: string, root: Branch, family: Family, desk: Desk, sheet: Sheet): Leaf[] {
  const { problems } = desk;
  const entry = required(root, family, '', `model and units of the ${family}`, problems);
  const branch = entry === null ? null : asBranch(entry.node, family, problems);
  if (branch === null) return [];
  refuseUnknownKeys(branch, ['model', 'units'], family, problems);
  const held = required(branch, 'units', family, 'the names of the units', problems);
  const common = branch.entries.get('model');
  const commonName = common === undefined ? null : asLeaf(common.node, `${family}.model`, problems);
  const table = unitTables[family];
  const shape: ModelShape = { model: modelOf[family], under: 'parameters', tables: { parameters: table } };
  const cache = new Map<string, Model>();
  const named = held === null ? [] : namesOf(held.node, family, desk);
  for (const { id, own } of named) {
    const path = joined(family, id.text);
    const extra = [
      ...(family === 'shelves' ? ['feeder'] : family === 'sleds' ? ['weight'] : []),
      ...(placedFamilies.includes(family) ? ['fitted'] : []),
    ];
    if (own !== null) refuseUnknownKeys(own, ['model', ...extra, ...Object.keys(table)], path, problems);
    const ownModel = own?.entries.get('model');
    const name = ownModel === undefined ? commonName : asLeaf(ownModel.node, `${path}.model`, problems);
    if (name === null) {
      problems.push(
        problemAt(id.origin, path, 'no model', 'a model file', `add model: … below ${family} or ${id.text}`),
      );
      continue;
    }
    const model = modelAt(file, name, shape, `${path}.model`, desk, cache);
    for (const [key, spec] of Object.entries(table)) {
      const cell = joined(path, key);
      const value = model?.values.get(key);
      if (value !== undefined) sheet.put(cell, { field: quantity(spec), ...value });
      else if (spec.fallback !== undefined) {
        sheet.put(cell, { field: quantity(spec), value: spec.fallback, origin: null, note: null });
      }
      const written = own?.entries.get(key);
      const leaf = written === undefined ? null : asLeaf(written.node, cell, problems);
      if (leaf !== null) sheet.write(cell, quantity(spec), leaf.text, leaf.origin);
    }
    if (family === 'sleds') writeOwn(own, id, 'weight', path, desk, sheet);
    if (placedFamilies.includes(family)) putFlag(own, path, 'fitted', fitted, desk, sheet);
  }
  return named.map(({ id }) => id);
}

/** A flag that is true where nobody says otherwise. */
function putFlag(
  own: Branch | null,
  path: string,
  key: string,
  field: FieldSpec,
  desk: Desk,
  sheet: Sheet,
): void {
  const cell = joined(path, key);
  const written = own?.entries.get(key);
  const leaf = written === undefined ? null : asLeaf(written.node, cell, desk.problems);
  sheet.put(cell, { field, value: true, origin: null, note: null });
  if (leaf !== null) sheet.write(cell, field, leaf.text, leaf.origin);
}

function writeOwn(own: Branch | null, id: Leaf, key: string, path: string, desk: Desk, sheet: Sheet): void {
  const entry = own?.entries.get(key);
  if (entry === undefined) {
    desk.problems.push(
      problemAt(id.origin, joined(path, key), `no ${key}`, weight.means, `write ${id.text}: { ${key}: 1 }`),
    );
    return;
  }
  const leaf = asLeaf(entry.node, joined(path, key), desk.problems);
  if (leaf !== null) sheet.write(joined(path, key), quantity(weight), leaf.text, leaf.origin);
}

/** Units as a list of names, or as names with values of their own. */
function namesOf(node: Node, family: Family, desk: Desk): { id: Leaf; own: Branch | null }[] {
  const path = `${family}.units`;
  const named =
    node.kind === 'branch'
      ? [...node.entries].map(([id, entry]) => ({
          id: { kind: 'leaf', text: id, origin: entry.keyOrigin } satisfies Leaf,
          own:
            entry.node.kind === 'leaf' && entry.node.text === ''
              ? null
              : asBranch(entry.node, joined(family, id), desk.problems),
        }))
      : asWords(node, path, desk.problems).map((id) => ({ id, own: null }));
  const seen = new Set<string>();
  return named.filter(({ id }) => {
    const fresh = !seen.has(id.text);
    seen.add(id.text);
    const usable = /^[A-Za-z][\w-]*$/.test(id.text);
    if (!fresh || !usable) {
      desk.problems.push(
        problemAt(
          id.origin,
          path,
          fresh ? `the name ${id.text}` : `${id.text} a second time`,
          'names of letters, digits and -, each once',
          'give it another name',
        ),
      );
    }
    return fresh && usable;
  });
}

/** Every shelf names the feeder it hangs on. */
function checkFeeders(
  shelves: readonly Leaf[],
  feeders: string[],
  root: Branch,
  desk: Desk,
  sheet: Sheet,
): void {
  const holder = root.entries.get('shelves')?.node;
  const units = holder?.kind === 'branch' ? holder.entries.get('units')?.node : undefined;
  for (const id of shelves) {
    const path = `shelves.${id.text}.feeder`;
    const own = units?.kind === 'branch' ? units.entries.get(id.text)?.node : undefined;
    const entry = own?.kind === 'branch' ? own.entries.get('feeder') : undefined;
    const field = { kind: 'choice', of: feeders, means: 'feeder of the shelf' } as const;
    if (entry === undefined) {
      desk.problems.push(
        problemAt(
          id.origin,
          path,
          'no feeder',
          `one of ${feeders.join(', ')}`,
          `write ${id.text}: { feeder: … }`,
        ),
      );
      continue;
    }
    const leaf = asLeaf(entry.node, path, desk.problems);
    if (leaf !== null) sheet.write(path, field, leaf.text, leaf.origin);
  }
}

function readSections(root: Branch, desk: Desk): { id: string; order: Leaf[] }[] {
  const entry = required(root, 'sections', '', 'the sections of the cabinet bar', desk.problems);
  const branch = entry === null ? null : asBranch(entry.node, 'sections', desk.problems);
  return [...(branch?.entries ?? [])].map(([id, { node }]) => ({
    id,
    order: asWords(node, `sections.${id}`, desk.problems),
  }));
}

function readBars(file: string, root: Branch, desk: Desk, sheet: Sheet): Pick<Structure, 'links' | 'tie'> {
  const { problems } = desk;
  const entry = required(root, 'bars', '', 'the bars', problems);
  const branch = entry === null ? null : asBranch(entry.node, 'bars', problems);
  if (branch === null) return { links: [], tie: null };
  refuseUnknownKeys(branch, ['model', 'links', 'tie'], 'bars', problems);
  const named = required(branch, 'model', 'bars', 'a model file of bars', problems);
  const name = named === null ? null : asLeaf(named.node, 'bars.model', problems);
  const shape: ModelShape = { model: 'bars', under: 'parts', tables: barParts };
  const model = name === null ? null : modelAt(file, name, shape, 'bars.model', desk, new Map());

  /** Puts a part of the model below `path`, with what the cabinet file writes over it. */
  const put = (part: keyof typeof barParts, path: string, own: Branch | null): void => {
    for (const [key, spec] of Object.entries(barParts[part])) {
      const value = model?.values.get(joined(part, key));
      if (value !== undefined) sheet.put(joined(path, key), { field: quantity(spec), ...value });
      const written = own?.entries.get(key);
      const leaf = written === undefined ? null : asLeaf(written.node, joined(path, key), problems);
      if (leaf !== null) sheet.write(joined(path, key), quantity(spec), leaf.text, leaf.origin);
    }
  };

  for (const part of ['segment', 'rack_segment', 'contact', 'rack_node'] as const)
    put(part, `bars.${part}`, null);
  const links: { id: string; section: Leaf }[] = [];
  const linkEntry = required(branch, 'links', 'bars', 'the link bars to the rack', problems);
  const linkBranch = linkEntry === null ? null : asBranch(linkEntry.node, 'bars.links', problems);
  for (const [id, { node }] of linkBranch?.entries ?? []) {
    const path = `bars.links.${id}`;
    const own = asBranch(node, path, problems);
    if (own === null) continue;
    const keys = ['section', 'place', 'rack', 'closed', ...Object.keys(barParts.link)];
    refuseUnknownKeys(own, keys, path, problems);
    put('link', path, own);
    putFlag(own, path, 'closed', closed, desk, sheet);
    for (const [key, field] of [
      ['place', linkPlace],
      ['rack', linkRack],
    ] as const) {
      const written = required(own, key, path, field.kind === 'quantity' ? field.spec.means : '', problems);
      const leaf = written === null ? null : asLeaf(written.node, joined(path, key), problems);
      if (leaf !== null) sheet.write(joined(path, key), field, leaf.text, leaf.origin);
    }
    const written = required(own, 'section', path, 'the section it starts from', problems);
    const section = written === null ? null : asLeaf(written.node, `${path}.section`, problems);
    if (section !== null) links.push({ id, section });
  }

  const tieEntry = branch.entries.get('tie');
  if (tieEntry === undefined) return { links, tie: null };
  if (tieEntry.node.kind === 'leaf' && tieEntry.node.text === 'none') return { links, tie: null };
  const tie = asBranch(tieEntry.node, 'bars.tie', problems);
  if (tie === null) return { links, tie: null };
  refuseUnknownKeys(tie, ['id', 'closed', ...Object.keys(barParts.tie)], 'bars.tie', problems);
  put('tie', 'bars.tie', tie);
  putFlag(tie, 'bars.tie', 'closed', closed, desk, sheet);
  const written = tie.entries.get('id');
  const id = written === undefined ? null : asLeaf(written.node, 'bars.tie.id', problems);
  return { links, tie: id?.text ?? 'tie' };
}

function readFirmwareAndLimits(file: string, root: Branch, desk: Desk, sheet: Sheet): LimitHead[] {
  const { problems } = desk;
  const fileNamed = (key: string): { leaf: Leaf; origin: Origin } | null => {
    const entry = required(root, key, '', `a file of ${key}`, problems);
    const leaf = entry === null ? null : asLeaf(entry.node, key, problems);
    return leaf === null ? null : { leaf, origin: leaf.origin };
  };
  const firmware = fileNamed('firmware');
  if (firmware !== null) {
    const words = { 'smoothing.own_power': ownPower };
    const shape: ModelShape = { model: 'firmware', under: 'tasks', tables: firmwareTasks, words };
    const model = modelAt(file, firmware.leaf, shape, 'firmware', desk, new Map());
    for (const [task, table] of Object.entries(firmwareTasks)) {
      for (const [key, spec] of Object.entries(table) as [string, (typeof cabinetTable)['nominal']][]) {
        const value = model?.values.get(joined(task, key));
        const path = joined('firmware', task, key);
        const fallback = (spec as { fallback?: number }).fallback;
        if (value !== undefined) sheet.put(path, { field: quantity(spec), ...value });
        else if (fallback !== undefined) {
          sheet.put(path, { field: quantity(spec), value: fallback, origin: null, note: null });
        }
      }
    }
    const own = model?.values.get('smoothing.own_power');
    if (own !== undefined) sheet.put('firmware.smoothing.own_power', { field: ownPower, ...own });
  }
  const limits = fileNamed('limits');
  const limitRoot =
    limits === null ? null : desk.document(besideFile(file, limits.leaf.text), limits.origin, 'limits');
  return limitRoot === null ? [] : readLimitRows(limitRoot, sheet);
}
