/** The limits file: rows as data. Columns and stays become cells of the sheet, so that changes reach them. */
import type { Problem } from '../../base/problem.ts';
import type { LimitRow } from '../limit-row.ts';
import type { Dimension, ParameterSpec } from '../parameter.ts';
import type { Sheet } from '../sheet.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import { type Branch, problemAt } from '../text/document.ts';
import { type FieldSpec, quantity, readField } from '../text/field.ts';
import { readSource } from '../text/model.ts';

/** What a row says beside its columns. */
export type LimitHead = Pick<
  LimitRow,
  'id' | 'title' | 'source' | 'quantity' | 'side' | 'unit' | 'band_Hz' | 'needs_Hz'
>;

const columns = ['normal', 'carry', 'degraded'] as const;

const units: Readonly<Record<string, Dimension>> = {
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

const frequency = quantity(spec('frequency', 'a frequency', 0, 1e6));

export function readLimitRows(root: Branch, sheet: Sheet): LimitHead[] {
  const { problems } = sheet;
  refuseUnknownKeys(root, ['limits', 'title', 'about', 'rows'], '', problems);
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
  refuseUnknownKeys(
    row,
    ['title', 'quantity', 'side', 'unit', 'band', ...columns, 'stay', 'needs', 'source', 'why', 'citation'],
    path,
    problems,
  );
  const read = (key: string, field: FieldSpec): string | null => {
    const entry = required(row, key, path, field.kind === 'quantity' ? '' : field.means, problems);
    const leaf = entry === null ? null : asLeaf(entry.node, joined(path, key), problems);
    if (leaf === null) return null;
    const value = readField(leaf.text, field, joined(path, key), leaf.origin, problems);
    return typeof value === 'string' ? value : null;
  };
  const title = read('title', { kind: 'text', means: 'one line that says what must hold' });
  const compared = read('quantity', { kind: 'text', means: 'what is compared' });
  const side = read('side', { kind: 'choice', of: ['upper', 'lower'], means: 'upper or lower' });
  const unit = read('unit', { kind: 'choice', of: Object.keys(units), means: 'unit of the columns' });
  const reading = readSource(row, path, problems);
  if (unit !== null) readColumns(row, path, units[unit]!, sheet);
  const needs = row.entries.get('needs');
  const needsLeaf = needs === undefined ? null : asLeaf(needs.node, joined(path, 'needs'), problems);
  const needsValue =
    needsLeaf === null
      ? null
      : readField(needsLeaf.text, frequency, joined(path, 'needs'), needsLeaf.origin, problems);
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
  for (const column of columns) {
    const entry = required(row, column, path, 'a value, or none', sheet.problems);
    const leaf = entry === null ? null : asLeaf(entry.node, joined(path, column), sheet.problems);
    if (leaf === null) continue;
    const field: FieldSpec = {
      ...quantity(spec(dimension, `value of the limit, ${column}`, -1e12, 1e12)),
      none: true,
    } as FieldSpec;
    sheet.write(joined(path, column), field, leaf.text, leaf.origin);
  }
  const stay: FieldSpec = {
    kind: 'quantity',
    spec: spec('time', 'longest stay allowed', 0, 1e6),
    none: true,
  };
  const entry = row.entries.get('stay');
  const leaf = entry === undefined ? null : asLeaf(entry.node, joined(path, 'stay'), sheet.problems);
  if (leaf !== null) sheet.write(joined(path, 'stay'), stay, leaf.text, leaf.origin);
}

/** `0.1 Hz to 0.5 Hz`. */
function readBand(row: Branch, path: string, problems: Problem[]): [number, number] | null {
  const entry = row.entries.get('band');
  const leaf = entry === undefined ? null : asLeaf(entry.node, joined(path, 'band'), problems);
  if (leaf === null) return null;
  const words = leaf.text.split(/\s+to\s+/);
  const ends = words.map((word) => readField(word, frequency, joined(path, 'band'), leaf.origin, problems));
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
