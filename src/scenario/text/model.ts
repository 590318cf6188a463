/**
 * A model file: every number with its source. A number is written as a mapping,
 * `{ value: 22 mF, source: assumed, why: … }`, optionally with `low`, `high`, `tolerance`, `end_of_life`, `cold`, `hot`.
 */
import type { Problem } from '../../base/problem.ts';
import { extremes } from '../part-states.ts';
import { choiceOf, type ParameterTable, type WordTable } from '../tables.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from './branches.ts';
import { type Branch, type Node, problemAt } from './document.ts';
import { type FieldSpec, type FieldValue, quantity, readField } from './field.ts';
import type { Origin } from './origin.ts';

export type SourceKind = 'published' | 'derived' | 'assumed' | 'measured';

/** Where a number of a model comes from, and its corners (SI; null where the file states none). */
export interface Note {
  readonly source: SourceKind;
  /** The citation of a published number, the reason of any other. */
  readonly why: string;
  /** The model's own value, which something may have written over; null of a word. */
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly tolerance_ratio: number | null;
  readonly end_of_life: number | null;
  readonly cold: number | null;
  readonly hot: number | null;
}

export interface ModelValue {
  readonly value: FieldValue;
  readonly origin: Origin;
  readonly note: Note;
}

/** Values of a model by key (`capacitance`), or by part and key (`segment.resistance`). */
export interface Model {
  readonly title: string;
  readonly values: ReadonlyMap<string, ModelValue>;
}

/** Where a number may come from. */
export const sources: readonly SourceKind[] = ['published', 'derived', 'assumed', 'measured'];
/** What a model may say of a number. */
export const noteKeys: readonly string[] = [
  'value',
  'source',
  'why',
  'citation',
  'low',
  'high',
  'tolerance',
  ...extremes,
];

/** How far a value may lie off. */
export const toleranceField: FieldSpec = quantity({
  dimension: 'ratio',
  symbol: '—',
  means: 'tolerance, over the value',
  min: 0,
  max: 10,
});

/** What a model file holds: one table under `parameters:`, or several under `parts:` or `tasks:`. */
export interface ModelShape {
  readonly model: string;
  readonly under: 'parameters' | 'parts' | 'tasks';
  readonly tables: Readonly<Record<string, ParameterTable>>;
  /** Parameters that are words, by part and key (`share.mode`). */
  readonly words?: WordTable;
}

export function readModel(root: Branch, shape: ModelShape, problems: Problem[]): Model {
  refuseUnknownKeys(root, ['model', 'title', 'about', shape.under], '', problems);
  const kind = required(root, 'model', '', `the kind of model, ${shape.model}`, problems);
  if (kind !== null && !(kind.node.kind === 'leaf' && kind.node.text === shape.model)) {
    const found = kind.node.kind === 'leaf' ? kind.node.text : 'no word';
    problems.push(
      problemAt(
        kind.node.origin,
        'model',
        `a model of kind ${found}`,
        `a model of kind ${shape.model}`,
        `name another file, or write model: ${shape.model}`,
      ),
    );
    return { title: '', values: new Map() };
  }
  const titled = root.entries.get('title');
  const title = titled === undefined ? '' : (asLeaf(titled.node, 'title', problems)?.text ?? '');
  const values = new Map<string, ModelValue>();
  const holder = required(root, shape.under, '', `the numbers of the model`, problems);
  const top = holder === null ? null : asBranch(holder.node, shape.under, problems);
  if (top === null) return { title, values };

  const parts = Object.keys(shape.tables);
  if (shape.under !== 'parameters') refuseUnknownKeys(top, parts, '', problems);
  for (const part of parts) {
    const silent = shape.under !== 'parameters' && !top.entries.has(part);
    if (silent && hasFallbacks(shape, part)) continue;
    const branch = shape.under === 'parameters' ? top : partOf(top, part, problems);
    if (branch === null) continue;
    const prefix = shape.under === 'parameters' ? '' : part;
    const fields: Record<string, FieldSpec> = {};
    for (const [key, spec] of Object.entries(shape.tables[part]!)) fields[key] = quantity(spec);
    const optional = new Set<string>();
    for (const [path, spec] of Object.entries(shape.words ?? {})) {
      if (!path.startsWith(`${part}.`)) continue;
      const key = path.slice(part.length + 1);
      fields[key] = choiceOf(spec);
      if (spec.fallback !== undefined) optional.add(key);
    }
    refuseUnknownKeys(branch, Object.keys(fields), prefix, problems);
    for (const [key, field] of Object.entries(fields)) {
      const path = joined(prefix, key);
      const entry = branch.entries.get(key);
      if (entry === undefined) {
        if (optional.has(key) || (field.kind === 'quantity' && field.spec.fallback !== undefined)) continue;
        const means = field.kind === 'quantity' ? field.spec.means : field.means;
        required(branch, key, prefix, means, problems);
        continue;
      }
      const value = readModelValue(entry.node, field, path, problems);
      if (value !== null) values.set(path, value);
    }
  }
  return { title, values };
}

/** A file may be silent about a whole part when each of its numbers has a fallback. */
function hasFallbacks({ tables, words }: ModelShape, part: string): boolean {
  const own = Object.entries(words ?? {}).filter(([path]) => path.startsWith(`${part}.`));
  const specs = [...Object.values(tables[part]!), ...own.map(([, spec]) => spec)];
  return specs.every(({ fallback }) => fallback !== undefined);
}

function partOf(top: Branch, part: string, problems: Problem[]): Branch | null {
  const entry = required(top, part, '', `the numbers of ${part}`, problems);
  return entry === null ? null : asBranch(entry.node, part, problems);
}

/** Reads `{ value, source, why, … }` of one field. */
export function readModelValue(
  node: Node,
  field: FieldSpec,
  path: string,
  problems: Problem[],
): ModelValue | null {
  if (node.kind !== 'branch') {
    problems.push(
      problemAt(
        node.origin,
        path,
        node.kind === 'leaf' ? `${node.text === '' ? 'nothing' : node.text}, without a source` : 'a list',
        'a value with its source',
        `write { value: ${node.kind === 'leaf' ? node.text : '…'}, source: assumed, why: … }`,
      ),
    );
    return null;
  }
  refuseUnknownKeys(node, noteKeys, path, problems);
  const read = (key: string, spec: FieldSpec = field): FieldValue | undefined => {
    const entry = node.entries.get(key);
    if (entry === undefined) return undefined;
    const leaf = asLeaf(entry.node, joined(path, key), problems);
    const where = key === 'value' ? path : joined(path, key);
    return leaf === null ? undefined : readField(leaf.text, spec, where, leaf.origin, problems);
  };
  const entry = required(node, 'value', path, 'the value', problems);
  const value = read('value');
  const note = readNote(node, path, typeof value === 'number' ? value : null, read, problems);
  if (entry === null || value === undefined || note === null) return null;
  if (typeof value === 'number') {
    const { low, high } = note;
    if ((low !== null && low > value) || (high !== null && high < value)) {
      problems.push(
        problemAt(
          entry.node.origin,
          path,
          'a value outside its own low and high',
          'low ≤ value ≤ high',
          'correct low or high',
        ),
      );
    }
  }
  return { value, origin: entry.node.origin, note };
}

function readNote(
  node: Branch,
  path: string,
  value: number | null,
  read: (key: string, spec?: FieldSpec) => FieldValue | undefined,
  problems: Problem[],
): Note | null {
  const reading = readSource(node, path, problems);
  const number = (key: string): number | null => {
    const found = read(key);
    return typeof found === 'number' ? found : null;
  };
  const tolerance = read('tolerance', toleranceField);
  const corners = {
    low: number('low'),
    high: number('high'),
    end_of_life: number('end_of_life'),
    cold: number('cold'),
    hot: number('hot'),
    tolerance_ratio: typeof tolerance === 'number' ? tolerance : null,
  };
  return reading === null ? null : { ...reading, value, ...corners };
}

/** `source:` with its `citation:` or `why:`; a number without them is refused. */
export function readSource(
  node: Branch,
  path: string,
  problems: Problem[],
): { source: SourceKind; why: string } | null {
  const entry = node.entries.get('source');
  if (entry === undefined) {
    problems.push(
      problemAt(
        node.origin,
        path,
        'no source',
        'published with citation, or derived, assumed or measured with why',
        'add source: assumed, why: … if it is not published',
      ),
    );
    return null;
  }
  const leaf = asLeaf(entry.node, joined(path, 'source'), problems);
  if (leaf === null) return null;
  const field: FieldSpec = { kind: 'choice', of: sources, means: 'where the number comes from' };
  const source = readField(leaf.text, field, joined(path, 'source'), leaf.origin, problems);
  if (typeof source !== 'string') return null;
  const key = source === 'published' ? 'citation' : 'why';
  const reason = node.entries.get(key);
  if (reason === undefined || reason.node.kind !== 'leaf' || reason.node.text === '') {
    problems.push(
      problemAt(
        node.origin,
        path,
        `source ${source} without ${key}`,
        source === 'published' ? 'a citation that others can look up' : 'a reason',
        `add ${key}: …`,
      ),
    );
    return null;
  }
  return { source: source as SourceKind, why: reason.node.text };
}
