/** The limits file: rows as data. Columns and stays become cells of the sheet, so that changes reach them. */
import type { Problem } from '../../base/problem.ts';
import type { LimitRow } from '../limit-row.ts';
import type { Dimension, ParameterSpec } from '../parameter.ts';
import type { Cell, Sheet } from '../sheet.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import { type Branch, problemAt } from '../text/document.ts';
import { type FieldSpec, quantity, readField } from '../text/field.ts';
import { readSource } from '../text/sourced.ts';

/** What a row says beside its columns. */
export type LimitHead = Pick<
  LimitRow,
  'id' | 'title' | 'source' | 'quantity' | 'side' | 'unit' | 'band_Hz' | 'needs_Hz'
>;

/** What a row is judged in. */
export const limitColumns = ['normal', 'carry', 'degraded'] as const;

/** What a limits file may say. */
export const limitsFileKeys: readonly string[] = ['limits', 'title', 'about', 'rows'];

/** What a limit's value measures, by the unit that its row states. */
export const limitUnits: Readonly<Record<string, Dimension>> = {
  ratio: 'ratio',
  '1/s': 'ratio',
  count: 'count',
  V: 'voltage',
  A: 'current',
  W: 'power',
  'W/s': 'power_rate',
  s: 'time',
  degC: 'temperature',
  K: 'temperature_rise',
};

/** An end of a row's band, and the content that it needs. */
export const limitFrequency: FieldSpec = quantity(spec('frequency', 'a frequency', 0, 1e6));

/** What a row says in one value each; its columns are of the dimension of its unit. */
export const limitWords = {
  title: { kind: 'text', means: 'one line that says what must hold' },
  quantity: { kind: 'text', means: 'what is compared' },
  side: { kind: 'choice', of: ['upper', 'lower'], means: 'upper or lower' },
  unit: { kind: 'choice', of: Object.keys(limitUnits), means: 'unit of the columns' },
} as const satisfies Readonly<Record<string, FieldSpec>>;

/** Longest stay beyond the value that a row still allows. */
export const limitStay: FieldSpec = {
  kind: 'quantity',
  spec: spec('time', 'longest stay allowed', 0, 1e6),
  none: true,
};

/** The value of a row in one column. */
export function limitColumn(dimension: Dimension, column: string): FieldSpec {
  return {
    kind: 'quantity',
    spec: spec(dimension, `value of the limit, ${column}`, -1e12, 1e12),
    none: true,
  };
}

/** What a row may say. */
export const limitRowKeys: readonly string[] = [
  ...Object.keys(limitWords),
  'band',
  ...limitColumns,
  'stay',
  'needs',
  'source',
  'why',
  'citation',
];

/** What a limits file gave that has nothing wrong, for who reads a scenario many times from the same documents. */
const kept = new WeakMap<
  Branch,
  { readonly heads: readonly LimitHead[]; readonly cells: readonly (readonly [string, Cell])[] }
>();

export function readLimitRows(root: Branch, sheet: Sheet): readonly LimitHead[] {
  const known = kept.get(root);
  if (known !== undefined) {
    for (const [path, cell] of known.cells) sheet.put(path, cell);
    return known.heads;
  }
  const before = sheet.problems.length;
  const heads = readRows(root, sheet);
  if (sheet.problems.length === before) {
    const cells = [...sheet.cells].filter(([path]) => path.startsWith('limits.'));
    kept.set(root, { heads, cells });
  }
  return heads;
}

function readRows(root: Branch, sheet: Sheet): LimitHead[] {
  const { problems } = sheet;
  refuseUnknownKeys(root, limitsFileKeys, '', problems);
  required(root, 'limits', '', 'the name of this set of limits', problems);
  const entry = required(root, 'rows', '', 'the rows', problems);
  const rows = entry === null ? null : asBranch(entry.node, 'rows', problems);
  const heads: LimitHead[] = [];
  for (const [id, { node }] of rows?.entries ?? []) {
    const row = asBranch(node, id, problems);
    const head = row === null ? null : readRow(row, id, sheet);
    if (head !== null) heads.push(head);
  }
  return heads;
}

function readRow(row: Branch, id: string, sheet: Sheet): LimitHead | null {
  const { problems } = sheet;
  const path = joined('limits', id);
  refuseUnknownKeys(row, limitRowKeys, path, problems);
  const read = (key: keyof typeof limitWords): string | null => {
    const field = limitWords[key];
    const entry = required(row, key, path, field.means, problems);
    const leaf = entry === null ? null : asLeaf(entry.node, joined(path, key), problems);
    if (leaf === null) return null;
    const value = readField(leaf.text, field, joined(path, key), leaf.origin, problems);
    return typeof value === 'string' ? value : null;
  };
  const title = read('title');
  const compared = read('quantity');
  const side = read('side');
  const unit = read('unit');
  const reading = readSource(row, path, problems);
  if (unit !== null) readColumns(row, path, limitUnits[unit]!, sheet);
  const needs = row.entries.get('needs');
  const needsLeaf = needs === undefined ? null : asLeaf(needs.node, joined(path, 'needs'), problems);
  const needsValue =
    needsLeaf === null
      ? null
      : readField(needsLeaf.text, limitFrequency, joined(path, 'needs'), needsLeaf.origin, problems);
  const band = readBand(row, path, problems);
  if (title === null || compared === null || side === null || unit === null || reading === null) return null;
  return {
    id,
    title,
    source: `${reading.source}: ${reading.why}`,
    quantity: compared,
    side: side as LimitRow['side'],
    unit,
    band_Hz: band,
    needs_Hz: typeof needsValue === 'number' ? needsValue : null,
  };
}

function readColumns(row: Branch, path: string, dimension: Dimension, sheet: Sheet): void {
  for (const column of limitColumns) {
    const entry = required(row, column, path, 'a value, or none', sheet.problems);
    const leaf = entry === null ? null : asLeaf(entry.node, joined(path, column), sheet.problems);
    if (leaf === null) continue;
    sheet.write(joined(path, column), limitColumn(dimension, column), leaf.text, leaf.origin);
  }
  const entry = row.entries.get('stay');
  const leaf = entry === undefined ? null : asLeaf(entry.node, joined(path, 'stay'), sheet.problems);
  if (leaf !== null) sheet.write(joined(path, 'stay'), limitStay, leaf.text, leaf.origin);
}

/** `0.1 Hz to 0.5 Hz`. */
function readBand(row: Branch, path: string, problems: Problem[]): [number, number] | null {
  const entry = row.entries.get('band');
  const leaf = entry === undefined ? null : asLeaf(entry.node, joined(path, 'band'), problems);
  if (leaf === null) return null;
  const words = leaf.text.split(/\s+to\s+/);
  const ends = words.map((word) =>
    readField(word, limitFrequency, joined(path, 'band'), leaf.origin, problems),
  );
  const [low, high] = ends;
  if (ends.length === 2 && typeof low === 'number' && typeof high === 'number' && low < high) {
    return [low, high];
  }
  if (!ends.includes(undefined)) {
    problems.push(
      problemAt(
        leaf.origin,
        joined(path, 'band'),
        leaf.text,
        'a low and a higher frequency',
        'write 0.5 Hz to 3 Hz',
      ),
    );
  }
  return null;
}

function spec(dimension: Dimension, means: string, min: number, max: number): ParameterSpec {
  return { dimension, symbol: '—', means, min, max };
}
