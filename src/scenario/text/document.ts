/**
 * YAML text to a plain tree that knows where each word stands. Scalars stay text as the user wrote it: what a
 * word means is decided by the parameter it is for, so `1e999`, `.inf` or `0x10` never become numbers here.
 */
import { isAlias, isMap, isScalar, isSeq, LineCounter, parseDocument } from 'yaml';
import type { Problem } from '../../base/problem.ts';
import { deepestNesting, nestsTooDeep } from './nesting.ts';
import type { Origin } from './origin.ts';

export interface Leaf {
  readonly kind: 'leaf';
  readonly text: string;
  readonly origin: Origin;
}

export interface Branch {
  readonly kind: 'branch';
  readonly entries: ReadonlyMap<string, KeyedValue>;
  readonly origin: Origin;
}

export interface WrittenRow {
  readonly kind: 'row';
  readonly items: readonly Node[];
  readonly origin: Origin;
}

/** A key's value, and where the key stands. */
export interface KeyedValue {
  readonly node: Node;
  readonly keyOrigin: Origin;
}

export type Node = Leaf | Branch | WrittenRow;

/** A problem at a place; a line of 0 (a change, not a file) is left out. */
export function problemAt(
  origin: Origin | null,
  path: string,
  found: string,
  expected: string,
  mend: string,
  severity: Problem['severity'] = 'error',
): Problem {
  const place =
    origin === null
      ? {}
      : origin.line === 0
        ? { file: origin.file }
        : { file: origin.file, line: origin.line, column: origin.column };
  return { severity, ...place, ...(path === '' ? {} : { path }), found, expected, mend };
}

/** The tree of a YAML text, or null with the reasons added to `problems`. */
export function readDocument(file: string, text: string, problems: Problem[]): Branch | null {
  if (nestsTooDeep(text)) {
    const found = `brackets within brackets, more than ${deepestNesting} deep`;
    problems.push(problemAt({ file, line: 1, column: 1 }, '', found, 'a file of keys and values', see));
    return null;
  }
  const lines = new LineCounter();
  // The library compares every key with every other: of many that takes minutes. They are looked at below.
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: false, prettyErrors: false });
  const originAt = (offset: number): Origin => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };
  const wrong = (origin: Origin, found: string, expected: string, mend: string): null => {
    problems.push(problemAt(origin, '', found, expected, mend));
    return null;
  };

  for (const error of document.errors) {
    if (error.code === 'MULTIPLE_DOCS')
      return wrong(
        originAt(error.pos[0]),
        'a second document, which begins with ---',
        'one document in a file',
        'give it a file of its own, or take the line out where both are meant as one',
      );
    wrong(
      originAt(error.pos[0]),
      firstSentence(error.message),
      'readable YAML',
      'correct the text at this place',
    );
  }
  if (document.errors.length > 0) return null;

  const convert = (node: unknown, at: Origin): Node | null => {
    if (isAlias(node)) {
      return wrong(at, 'a reference to another place of the file', 'the value itself', 'write the value out');
    }
    if (isScalar(node)) {
      const origin = node.range ? originAt(node.range[0]) : at;
      const plain = node.type === 'PLAIN' && node.source !== undefined;
      const text = plain ? node.source : node.value === null ? '' : String(node.value);
      return { kind: 'leaf', text: (text ?? '').trim(), origin };
    }
    if (isSeq(node)) {
      const origin = node.range ? originAt(node.range[0]) : at;
      const items = node.items.map((item) => convert(item, origin));
      return { kind: 'row', items: items.filter((item) => item !== null), origin };
    }
    if (isMap(node)) {
      const origin = node.range ? originAt(node.range[0]) : at;
      const entries = new Map<string, KeyedValue>();
      for (const { key, value } of node.items) {
        if (!isScalar(key)) {
          wrong(origin, 'a key that is not a word', 'a word', 'write a plain key');
          continue;
        }
        const keyOrigin = key.range ? originAt(key.range[0]) : origin;
        const word = String(key.value);
        if (entries.has(word)) {
          wrong(keyOrigin, `${word} a second time`, 'each key once', `keep one of the two ${word}`);
          continue;
        }
        const converted = value === null ? leafOf('', keyOrigin) : convert(value, keyOrigin);
        if (converted !== null) entries.set(word, { node: converted, keyOrigin });
      }
      return { kind: 'branch', entries, origin };
    }
    return leafOf('', at);
  };

  const root = convert(document.contents, { file, line: 1, column: 1 });
  if (root === null) return null;
  if (root.kind === 'branch') return root;
  return wrong(root.origin, 'no keys', 'a file of keys and values', see);
}

const see = 'see scenarios/pulse-train.yaml';

function leafOf(text: string, origin: Origin): Leaf {
  return { kind: 'leaf', text, origin };
}

function firstSentence(message: string): string {
  return (message.split('\n')[0] ?? message).replace(/ at line \d+, column \d+:?$/, '');
}
