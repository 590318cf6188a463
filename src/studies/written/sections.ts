/** Sections of a study's file with a layout of their own: cases, what is varied, one fault of each kind. */
import type { Problem } from '../../base/problem.ts';
import { asBranch, asLeaf, refuseUnknownKeys, required, wordOf } from '../../scenario/text/branches.ts';
import { type Branch, problemAt } from '../../scenario/text/document.ts';
import { listed } from '../../scenario/text/nearest.ts';
import { besideFile, isUnitModel } from '../../scenario/text/paths.ts';
import { changesAt, pairsOf } from './lists.ts';
import type { Stretch, StudyFile, Variant } from './study-file.ts';
import { varied } from './written-at.ts';

export function readCases(file: string, root: Branch, problems: Problem[]): Variant[] {
  const entry = root.entries.get('cases');
  const branch = entry === undefined ? null : asBranch(entry.node, 'cases', problems);
  return [...(branch?.entries ?? [])].flatMap(([name, { node }]) => {
    const path = `cases.${name}`;
    const inner = asBranch(node, path, problems);
    if (inner === null) return [];
    refuseUnknownKeys(inner, ['scenario', 'changes'], path, problems);
    const own = wordOf(inner, 'scenario', path, problems)?.text;
    const changes = changesAt(inner, 'changes', `${path}.changes`, problems);
    return [{ name, changes, ...(own === undefined ? {} : { scenario: besideFile(file, own) }) }];
  });
}

/** Stretches of a calendar in their order: `night: { for: 8 h, changes: [load.high = 180 kW] }`. */
export function readStretches(root: Branch, problems: Problem[]): Stretch[] {
  const entry = root.entries.get('stretches');
  const branch = entry === undefined ? null : asBranch(entry.node, 'stretches', problems);
  return [...(branch?.entries ?? [])].flatMap(([name, { node }]) => {
    const path = `stretches.${name}`;
    const inner = asBranch(node, path, problems);
    if (inner === null) return [];
    refuseUnknownKeys(inner, ['for', 'changes'], path, problems);
    const lasts = required(inner, 'for', path, 'how long it lasts, for example 8 h', problems);
    const changes = changesAt(inner, 'changes', `${path}.changes`, problems);
    const text = lasts === null ? null : asLeaf(lasts.node, `${path}.for`, problems);
    return text === null ? [] : [{ name, changes, for: text.text, origin: text.origin }];
  });
}

/** A path with its values, or a name with designs: `bar section: { 60 by 10 mm: [ … ], 100 by 10 mm: [ … ] }`. */
export function readVary(root: Branch, problems: Problem[]): Pick<StudyFile, 'vary' | 'designs'> {
  const entry = root.entries.get('vary');
  const branch = entry === undefined ? null : asBranch(entry.node, 'vary', problems);
  if (branch === null) return { vary: [], designs: {} };
  const designs: Record<string, readonly Variant[]> = {};
  const plain = new Map(branch.entries);
  for (const [name, { node }] of branch.entries) {
    if (node.kind !== 'branch') continue;
    plain.delete(name);
    if (node.entries.size === 0) {
      const mend = 'write a name and its changes for each, least first';
      problems.push(problemAt(node.origin, `vary.${name}`, 'no designs', 'at least one design', mend));
    }
    designs[name] = [...node.entries.keys()].map((design) => ({
      name: design,
      changes: changesAt(node, design, `vary.${name}.${design}`, problems),
    }));
  }
  const pairs = new Map(pairsOf({ ...branch, entries: plain }, 'vary', problems));
  const vary = [...branch.entries.keys()].flatMap((key): [string, string][] => {
    const values = designs[key]?.map(({ name }) => name).join(' | ') ?? pairs.get(key);
    if (values === undefined) return [];
    const { origin } = branch.entries.get(key)!.node;
    return [varied([key, isUnitModel(key) ? besideEach(origin.file, values) : values], origin)];
  });
  return { vary, designs };
}

/** Names of files are relative to the study's own folder. */
function besideEach(file: string, values: string): string {
  return values
    .split('|')
    .map((name) => besideFile(file, name.trim()))
    .join(' | ');
}

export function readEveryFault(root: Branch, problems: Problem[]): StudyFile['everyFault'] {
  const entry = root.entries.get('every_fault');
  const branch = entry === undefined ? null : asBranch(entry.node, 'every_fault', problems);
  if (branch === null) return null;
  refuseUnknownKeys(branch, ['at', 'units', 'back'], 'every_fault', problems);
  const at = required(branch, 'at', 'every_fault', 'when each fault happens', problems);
  const units = wordOf(branch, 'units', 'every_fault', problems);
  if (units !== null && units.text !== 'one' && units.text !== 'each') {
    const allowed = listed(['one', 'each']);
    problems.push(problemAt(units.origin, 'every_fault.units', units.text, allowed, 'write one of them'));
  }
  const back = wordOf(branch, 'back', 'every_fault', problems)?.text ?? '1 s';
  if (at === null || at.node.kind !== 'leaf') return null;
  return { at: at.node.text, origin: at.node.origin, units: units?.text === 'each' ? 'each' : 'one', back };
}
