/**
 * The tree of a document as data that JSON keeps, without the file's name: the same text under any name has the same tree.
 * A leaf is its place and its text, a row its place and its items, a branch its place and of each key its word, its place
 * and its value.
 */
import type { Branch, KeyedValue, Node } from './document.ts';

type PackedLeaf = readonly [line: number, column: number, text: string];
type PackedRow = readonly [line: number, column: number, items: readonly PackedNode[]];
export type PackedBranch = readonly [
  line: number,
  column: number,
  keys: readonly string[],
  places: readonly number[],
  values: readonly PackedNode[],
];
type PackedNode = PackedLeaf | PackedRow | PackedBranch;

export function packBranch({ origin, entries }: Branch): PackedBranch {
  const values = [...entries.values()];
  const places = values.flatMap(({ keyOrigin }) => [keyOrigin.line, keyOrigin.column]);
  const packed = values.map(({ node }) => pack(node));
  return [origin.line, origin.column, [...entries.keys()], places, packed];
}

function pack(node: Node): PackedNode {
  const { line, column } = node.origin;
  switch (node.kind) {
    case 'leaf':
      return [line, column, node.text];
    case 'row':
      return [line, column, node.items.map(pack)];
    case 'branch':
      return packBranch(node);
  }
}

/** The tree that was packed, of the file that has its text. */
export function openBranch(file: string, packed: PackedBranch): Branch {
  const [line, column, keys, places, values] = packed;
  const entries = new Map<string, KeyedValue>();
  for (let k = 0; k < keys.length; k++) {
    const keyOrigin = { file, line: places[2 * k]!, column: places[2 * k + 1]! };
    entries.set(keys[k]!, { node: open(file, values[k]!), keyOrigin });
  }
  return { kind: 'branch', entries, origin: { file, line, column } };
}

function open(file: string, packed: PackedNode): Node {
  if (packed.length !== 3) return openBranch(file, packed);
  const [line, column, what] = packed;
  const origin = { file, line, column };
  return typeof what === 'string'
    ? { kind: 'leaf', text: what, origin }
    : { kind: 'row', items: what.map((item) => open(file, item)), origin };
}
