/** The double columns of a result (streams, window means, stays) as one named list, and back. */

import { BadInput } from '../base/problem.ts';
import type { Result, Stays, StayTable, Stream, WindowMeans } from '../engine/result.ts';
import type { ColumnLayout } from './format.ts';

export interface KeptColumn {
  readonly name: string;
  readonly values: Float64Array | Uint32Array;
}

const tables = ['normal', 'carry'] as const;
const stayFields = [
  'below_s',
  'belowAt_s',
  'belowCount',
  'belowFirst_s',
  'belowLast_s',
  'above_s',
  'aboveAt_s',
  'aboveCount',
  'aboveFirst_s',
  'aboveLast_s',
] as const;

/** Every double column of the result, in a fixed order. */
export function columnsOf(result: Result): readonly KeptColumn[] {
  const columns: KeptColumn[] = [];
  for (const stream of result.streams)
    columns.push({ name: `stream/${stream.channel}`, values: stream.samples });
  for (const [channel, values] of result.means.columns) columns.push({ name: `means/${channel}`, values });
  columns.push({ name: 'stays/levels_V', values: result.stays.levels_V });
  for (const table of tables) {
    for (const field of stayFields)
      columns.push({ name: `stays/${table}/${field}`, values: result.stays[table][field] });
  }
  return columns;
}

/** The columns one behind the other as little-endian float64. */
export function packColumns(columns: readonly KeptColumn[]): { layout: ColumnLayout[]; bytes: Uint8Array } {
  const layout = columns.map(({ name, values }) => ({ name, length: values.length }));
  const packed = new Float64Array(layout.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const { values } of columns) {
    packed.set(values, at);
    at += values.length;
  }
  return { layout, bytes: new Uint8Array(packed.buffer) };
}

/** Whether a column is one of stays. */
export function isOfStays({ name }: ColumnLayout): boolean {
  return name.startsWith('stays/');
}

/** Columns by name. `bytes` must be as long as the layout says. */
export function unpackColumns(
  layout: readonly ColumnLayout[],
  bytes: Uint8Array,
): ReadonlyMap<string, Float64Array> {
  const columns = new Map<string, Float64Array>();
  let at = 0;
  for (const { name, length } of layout) {
    columns.set(name, new Float64Array(bytes.slice(at, at + 8 * length).buffer));
    at += 8 * length;
  }
  return columns;
}

type ColumnsById = ReadonlyMap<string, Float64Array>;

function column(columns: ColumnsById, name: string): Float64Array {
  const values = columns.get(name);
  if (values !== undefined) return values;
  throw new BadInput([
    {
      severity: 'error',
      file: 'streams.f64',
      found: `no column ${name}`,
      expected: 'every column that the readings name',
      mend: 'the manifest was changed after it was written: run the scenario again with --out',
    },
  ]);
}

/** Puts the samples back behind each stream's head. */
export function streamsFrom(
  heads: readonly Omit<Stream, 'samples'>[],
  columns: ColumnsById,
): readonly Stream[] {
  return heads.map((head) => ({ ...head, samples: column(columns, `stream/${head.channel}`) }));
}

/** Puts the columns back behind the head of the window means. */
export function meansFrom(head: Omit<WindowMeans, 'columns'>, columns: ColumnsById): WindowMeans {
  const own = new Map<string, Float64Array>();
  for (const [name, values] of columns)
    if (name.startsWith('means/')) own.set(name.slice('means/'.length), values);
  return { ...head, columns: own };
}

/** Puts the tables back behind the head of the stays. */
export function staysFrom(head: Omit<Stays, 'levels_V' | 'normal' | 'carry'>, columns: ColumnsById): Stays {
  return {
    ...head,
    levels_V: column(columns, 'stays/levels_V'),
    normal: stayTable('normal', columns),
    carry: stayTable('carry', columns),
  };
}

function stayTable(table: (typeof tables)[number], columns: ColumnsById): StayTable {
  const of = (field: string): Float64Array => column(columns, `stays/${table}/${field}`);
  return {
    below_s: of('below_s'),
    belowAt_s: of('belowAt_s'),
    belowCount: Uint32Array.from(of('belowCount')),
    belowFirst_s: of('belowFirst_s'),
    belowLast_s: of('belowLast_s'),
    above_s: of('above_s'),
    aboveAt_s: of('aboveAt_s'),
    aboveCount: Uint32Array.from(of('aboveCount')),
    aboveFirst_s: of('aboveFirst_s'),
    aboveLast_s: of('aboveLast_s'),
  };
}
