/** The cabinet file: which units there are, where they stand, what joins them; their values go to the sheet. */

import type { WordSpec } from '../parameter.ts';
import type { Sheet } from '../sheet.ts';
import { isSpecification, readSpecification } from '../specification/read-specification.ts';
import { cabinetTable, type Family, families, firmwareTasks, firmwareWords } from '../tables.ts';
import { asBranch, asLeaf, asWords, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import type { Branch, Leaf } from '../text/document.ts';
import { quantity } from '../text/field.ts';
import { type Model, type ModelShape, openModel, putModel, putWords } from '../text/model-file.ts';
import { besideFile } from '../text/paths.ts';
import { readModelValue } from '../text/sourced.ts';
import { readBars } from './bars.ts';
import { readLimitRows } from './limit-rows.ts';
import type { Structure } from './structure.ts';
import { readUnits } from './units.ts';

/** What a model file of firmware holds. */
export const firmwareShape = {
  model: 'firmware',
  under: 'tasks',
  tables: firmwareTasks,
  words: Object.fromEntries(
    Object.entries(firmwareWords).flatMap(([task, table]) =>
      Object.entries(table).map(([key, spec]): [string, WordSpec] => [joined(task, key), spec]),
    ),
  ),
} as const satisfies ModelShape;

/** What a cabinet file may say. */
export const cabinetKeys: readonly string[] = [
  'cabinet',
  'title',
  'about',
  ...Object.keys(cabinetTable),
  ...families,
  'sections',
  'bars',
  'firmware',
  'limits',
];

/** `limitsFile`: judged by in place of the limits that the cabinet names. */
export function readCabinet(
  file: string,
  root: Branch,
  desk: Desk,
  sheet: Sheet,
  limitsFile: Leaf | null,
): Structure {
  const { problems } = desk;
  refuseUnknownKeys(root, cabinetKeys, '', problems);
  required(root, 'cabinet', '', 'the name of the cabinet', problems);
  for (const [key, spec] of Object.entries(cabinetTable)) {
    const entry = required(root, key, '', spec.means, problems);
    const value = entry === null ? null : readModelValue(entry.node, quantity(spec), key, problems);
    if (value !== null) sheet.put(key, { field: quantity(spec), ...value });
  }
  const units = new Map<Family, readonly Leaf[]>();
  const blanks = new Map<Family, () => Model | null>();
  const fill = new Map<Family, readonly Leaf[]>();
  // Feeders come first: shelves name them.
  for (const family of families) {
    const feeders = (units.get('feeders') ?? []).map(({ text }) => text);
    const read = readUnits(file, root, family, feeders, desk, sheet);
    units.set(family, read.ids);
    blanks.set(family, read.blank);
    fill.set(family, read.fill);
  }
  const sections = readSections(root, desk);
  const joints = readBars(file, root, desk, sheet);
  readFirmware(file, root, desk, sheet);
  return { units, blanks, fill, sections, ...joints, ...readLimits(file, root, desk, sheet, limitsFile) };
}

function readSections(root: Branch, desk: Desk): Structure['sections'] {
  const entry = required(root, 'sections', '', 'the sections of the cabinet bar', desk.problems);
  const branch = entry === null ? null : asBranch(entry.node, 'sections', desk.problems);
  return [...(branch?.entries ?? [])].map(([id, { node, keyOrigin }]) => ({
    id,
    order: asWords(node, `sections.${id}`, desk.problems),
    origin: keyOrigin,
  }));
}

/** The file that a top-level key names. */
function fileNamed(root: Branch, key: string, desk: Desk): Leaf | null {
  const entry = required(root, key, '', `a file of ${key}`, desk.problems);
  return entry === null ? null : asLeaf(entry.node, key, desk.problems);
}

function readFirmware(file: string, root: Branch, desk: Desk, sheet: Sheet): void {
  const name = fileNamed(root, 'firmware', desk);
  if (name === null) return;
  const model = openModel(file, name, firmwareShape, 'firmware', desk);
  for (const [task, table] of Object.entries(firmwareTasks)) {
    putModel(model, task, table, joined('firmware', task), sheet);
  }
  putWords(model, firmwareShape.words, 'firmware', sheet);
}

function readLimits(
  file: string,
  root: Branch,
  desk: Desk,
  sheet: Sheet,
  instead: Leaf | null,
): Pick<Structure, 'limits' | 'specification'> {
  const name = fileNamed(root, 'limits', desk);
  const none = { limits: [], specification: null };
  if (name === null) return none;
  const target = instead === null ? besideFile(file, name.text) : instead.text;
  const from = (instead ?? name).origin;
  if (!isSpecification(target)) {
    const rows = desk.document(target, from, 'limits');
    return rows === null ? none : { limits: readLimitRows(rows, sheet), specification: null };
  }
  const text = desk.text(target, from, 'limits');
  const read = text === null ? null : readSpecification(target, text, desk.problems);
  if (read === null) return none;
  return { limits: readLimitRows(read.limits, sheet), specification: read.specification };
}
