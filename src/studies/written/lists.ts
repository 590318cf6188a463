/** Lists of a study's file: changes, names with their changes, paths with a text each. */
import type { Problem } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import { asBranch, asLeaf, asWords } from '../../scenario/text/branches.ts';
import { type Branch, problemAt } from '../../scenario/text/document.ts';
import { besideFile, isUnitModel } from '../../scenario/text/paths.ts';
import type { Variant } from './study-file.ts';
import { placed } from './written-at.ts';

/** `path = value` as a change; null where there is no equals sign. */
function changeOf(text: string): Change | null {
  const cut = text.indexOf('=');
  if (cut < 1 || cut === text.length - 1) return null;
  return { path: text.slice(0, cut).trim(), value: text.slice(cut + 1).trim() };
}

/** Names of files are relative to the study's own folder. */
function besideStudy(change: Change, file: string): Change {
  return isUnitModel(change.path) ? { ...change, value: besideFile(file, change.value) } : change;
}

export function readWords(root: Branch, key: string, problems: Problem[]): string[] {
  const entry = root.entries.get(key);
  return entry === undefined ? [] : asWords(entry.node, key, problems).map(({ text }) => text);
}

export function changesAt(branch: Branch, key: string, path: string, problems: Problem[]): Change[] {
  const entry = branch.entries.get(key);
  if (entry === undefined) return [];
  return asWords(entry.node, path, problems).flatMap(({ text, origin }) => {
    const change = changeOf(text);
    if (change !== null) return [placed(besideStudy(change, origin.file), { origin, of: path })];
    problems.push(problemAt(origin, path, text, 'a change', 'write it like trays.capacitance = 130 F'));
    return [];
  });
}

export function readVariants(root: Branch, key: string, problems: Problem[]): Variant[] {
  const entry = root.entries.get(key);
  const branch = entry === undefined ? null : asBranch(entry.node, key, problems);
  if (branch === null) return [];
  return [...branch.entries].map(([name, { node }]) => ({
    name,
    changes: changesAt(branch, name, `${key}.${name}`, problems),
    origin: node.origin,
  }));
}

export function readPairs(root: Branch, key: string, problems: Problem[]): [string, string][] {
  const entry = root.entries.get(key);
  const branch = entry === undefined ? null : asBranch(entry.node, key, problems);
  return branch === null ? [] : pairsOf(branch, key, problems);
}

export function pairsOf(branch: Branch, key: string, problems: Problem[]): [string, string][] {
  return [...branch.entries].flatMap(([path, { node }]): [string, string][] => {
    if (node.kind === 'row') {
      return [
        [
          path,
          asWords(node, `${key}.${path}`, problems)
            .map(({ text }) => text)
            .join(' | '),
        ],
      ];
    }
    const leaf = asLeaf(node, `${key}.${path}`, problems);
    return leaf === null ? [] : [[path, leaf.text]];
  });
}
