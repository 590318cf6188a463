/** Reading branches of a document: unknown keys are named with their nearest, missing ones with a mend. */
import type { Problem } from '../../base/problem.ts';
import { type Branch, type KeyedValue, type Leaf, type Node, problemAt } from './document.ts';
import { listed, nearestWords } from './nearest.ts';

export function joined(...parts: readonly string[]): string {
  let path = '';
  for (const part of parts) if (part !== '') path = path === '' ? part : `${path}.${part}`;
  return path;
}

/** Reports every key that is not among `allowed`. */
export function refuseUnknownKeys(
  branch: Branch,
  allowed: readonly string[],
  path: string,
  problems: Problem[],
): void {
  for (const [key, entry] of branch.entries) {
    if (allowed.includes(key)) continue;
    const near = nearestWords(key, allowed, 1)[0];
    problems.push(
      problemAt(
        entry.keyOrigin,
        joined(path, key),
        `key ${key}`,
        allowed.length > 14 ? `one of ${allowed.length} keys` : `one of ${listed(allowed)}`,
        near === undefined ? `remove it, or use one of ${listed(allowed)}` : `did you mean ${near}?`,
      ),
    );
  }
}

/** The entry of a key that must be there. */
export function required(
  branch: Branch,
  key: string,
  path: string,
  expected: string,
  problems: Problem[],
): KeyedValue | null {
  const entry = branch.entries.get(key);
  if (entry !== undefined) return entry;
  const mend = branch.origin.line === 0 ? `state ${key} on the command line` : `add a line ${key}: … here`;
  problems.push(problemAt(branch.origin, joined(path, key), `no ${key}`, expected, mend));
  return null;
}

export function asBranch(node: Node, path: string, problems: Problem[]): Branch | null {
  if (node.kind === 'branch') return node;
  problems.push(
    problemAt(node.origin, path, shown(node), 'keys with values', 'indent keys and values below it'),
  );
  return null;
}

export function asLeaf(node: Node, path: string, problems: Problem[]): Leaf | null {
  if (node.kind === 'leaf') return node;
  problems.push(problemAt(node.origin, path, shown(node), 'one value', 'write one value after the colon'));
  return null;
}

/** The words of a list, each with its place. */
export function asWords(node: Node, path: string, problems: Problem[]): Leaf[] {
  if (node.kind === 'row') {
    return node.items.map((item) => asLeaf(item, path, problems)).filter((item) => item !== null);
  }
  problems.push(problemAt(node.origin, path, shown(node), 'a list', 'write a list, for example [S1, T1]'));
  return [];
}

/** Text of an optional top-level word, '' where it is missing. */
export function wordOf(branch: Branch, key: string, path: string, problems: Problem[]): Leaf | null {
  const entry = branch.entries.get(key);
  return entry === undefined ? null : asLeaf(entry.node, joined(path, key), problems);
}

function shown(node: Node): string {
  if (node.kind === 'leaf') return node.text === '' ? 'nothing' : node.text;
  return node.kind === 'row' ? 'a list' : 'keys and values';
}

/** Order of problems: by file as first met, then by line and column. */
export function inFileOrder(problems: readonly Problem[]): Problem[] {
  const files = [...new Set(problems.map((p) => p.file ?? ''))];
  return [...problems].sort(
    (a, b) =>
      files.indexOf(a.file ?? '') - files.indexOf(b.file ?? '') ||
      (a.line ?? 0) - (b.line ?? 0) ||
      (a.column ?? 0) - (b.column ?? 0),
  );
}
