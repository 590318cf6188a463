/**
 * A model file: every number with its source (`sourced.ts`). One that is `like` another states what differs; the rest is
 * that of the other one.
 */
import type { Problem } from '../../base/problem.ts';
import { choiceOf, type ParameterTable, type WordTable } from '../tables.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from './branches.ts';
import { type Branch, problemAt } from './document.ts';
import { type FieldSpec, quantity } from './field.ts';
import { type ModelValue, readModelValue } from './sourced.ts';

/** Values of a model by key (`capacitance`), or by part and key (`segment.resistance`). */
export interface Model {
  readonly title: string;
  /** Where it stands. */
  readonly file: string;
  readonly values: ReadonlyMap<string, ModelValue>;
}

/** What a model file holds: one table under `parameters:`, or several under `parts:` or `tasks:`. */
export interface ModelShape {
  readonly model: string;
  readonly under: 'parameters' | 'parts' | 'tasks';
  readonly tables: Readonly<Record<string, ParameterTable>>;
  /** Parameters that are words, by part and key (`share.mode`). */
  readonly words?: WordTable;
}

/** What a model file may say beside its numbers. */
export const modelHeads = {
  model: 'the kind of model',
  title: 'one line that says what it is',
  about: 'what else is to be known',
  like: 'a model file of the same kind: what this one does not state is as it is there',
} as const;

/** Models without a problem, by the document they were read from: a study reads the same ones for each of its trials. */
const readBefore: WeakMap<
  Branch,
  { readonly shape: string; readonly like: Model | null; readonly model: Model }
> = new WeakMap();

/** `like`: the model that this one derives from, as far as it could be read; null where it stands by itself. */
export function readModel(root: Branch, shape: ModelShape, like: Model | null, problems: Problem[]): Model {
  const before = readBefore.get(root);
  if (before !== undefined && before.shape === shape.model && before.like === like) return before.model;
  const found = problems.length;
  const model = readAnew(root, shape, like, problems);
  if (problems.length === found) readBefore.set(root, { shape: shape.model, like, model });
  return model;
}

function readAnew(root: Branch, shape: ModelShape, like: Model | null, problems: Problem[]): Model {
  refuseUnknownKeys(root, [...Object.keys(modelHeads), shape.under], '', problems);
  const { file } = root.origin;
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
    return { title: '', file, values: new Map() };
  }
  const titled = root.entries.get('title');
  const title =
    titled === undefined ? (like?.title ?? '') : (asLeaf(titled.node, 'title', problems)?.text ?? '');
  const values = new Map<string, ModelValue>(like?.values);
  const holder =
    like === null
      ? required(root, shape.under, '', `the numbers of the model`, problems)
      : (root.entries.get(shape.under) ?? null);
  const top = holder === null ? null : asBranch(holder.node, shape.under, problems);
  if (top === null) return { title, file, values };

  const parts = Object.keys(shape.tables);
  if (shape.under !== 'parameters') refuseUnknownKeys(top, parts, '', problems);
  for (const part of parts) {
    const silent = shape.under !== 'parameters' && !top.entries.has(part);
    if (silent && (like !== null || hasFallbacks(shape, part))) continue;
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
        // What neither says is missed where the chain ends.
        if (
          like !== null ||
          optional.has(key) ||
          (field.kind === 'quantity' && (field.none === true || field.spec.fallback !== undefined))
        )
          continue;
        const means = field.kind === 'quantity' ? field.spec.means : field.means;
        required(branch, key, prefix, means, problems);
        continue;
      }
      const value = readModelValue(entry.node, field, path, problems);
      if (value !== null) values.set(path, value);
    }
  }
  return { title, file, values };
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
