/**
 * A number with its source, as models and cabinets write it: `{ value: 22 mF, source: assumed, why: … }`, optionally with
 * `low`, `high`, `tolerance`, `end_of_life`, `cold`, `hot`.
 */
import type { Problem } from '../../base/problem.ts';
import type { Extreme } from '../part-states.ts';
import { asLeaf, joined, refuseUnknownKeys, required } from './branches.ts';
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
  /** How it lies between low and high; null where the file does not say. */
  readonly distribution: Distribution | null;
  /** All units of the model lie off alike: a figure that is not known, not one that varies from part to part. */
  readonly common: boolean;
  readonly end_of_life: number | null;
  readonly cold: number | null;
  readonly hot: number | null;
}

export interface ModelValue {
  readonly value: FieldValue;
  readonly origin: Origin;
  readonly note: Note;
}

/** How a number lies between its low and its high: all alike, or its own value the likeliest. */
export const distributions = ['uniform', 'triangular'] as const;

export type Distribution = (typeof distributions)[number];

export const distributionField: FieldSpec = {
  kind: 'choice',
  of: distributions,
  means: 'how the number lies between low and high',
};

/** Whether all units of a model lie off alike. */
export const commonField: FieldSpec = { kind: 'flag', means: 'all units of the model lie off alike' };

/** Where a number may come from. */
export const sources: readonly SourceKind[] = ['published', 'derived', 'assumed', 'measured'];
/** What a model may say of a number, and what that means. */
export const noteMeanings = {
  value: 'the number, of a new part at usual temperature',
  source: 'published (with citation), or derived, assumed or measured (with why)',
  why: 'the reason of a number that is not published',
  citation: 'of a published number: what others can look up',
  low: 'the least that such a part may have',
  high: 'the most that such a part may have',
  distribution: 'how it lies between low and high: uniform, or triangular with its own value the likeliest',
  common:
    'yes: all units of the model lie off alike, as with a figure that is not known; otherwise each by itself',
  tolerance: 'how far it may lie off, over the value, where low and high are not stated',
  end_of_life: 'what it is at the end of life',
  cold: 'what it is at the coldest',
  hot: 'what it is at the hottest',
} as const satisfies Readonly<Record<string, string>> & Readonly<Record<Extreme, string>>;

export const noteKeys: readonly string[] = Object.keys(noteMeanings);

/** How far a value may lie off. */
export const toleranceField: FieldSpec = quantity({
  dimension: 'ratio',
  symbol: '—',
  means: 'tolerance, over the value',
  min: 0,
  max: 10,
});

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
  const distribution = read('distribution', distributionField);
  const common = read('common', commonField);
  const corners = {
    low: number('low'),
    high: number('high'),
    end_of_life: number('end_of_life'),
    cold: number('cold'),
    hot: number('hot'),
    distribution: typeof distribution === 'string' ? (distribution as Distribution) : null,
    common: common === true,
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
