/**
 * A Parquet file as the delimited text that says the same: a line of names, then a line a row, every number in the
 * digits that give its bits back, stamps as dates with all their digits. Read page by page with hyparquet, whose
 * reading of one page waits for nothing. Columns of lists and structures stay empty.
 */
import { type FileMetaData, parquetMetadata, parquetSchema } from 'hyparquet';
import { parquetHeader, readPage } from 'hyparquet/src/column.js';
import { convert } from 'hyparquet/src/convert.js';
import { getTreePath, isFlatColumn } from 'hyparquet/src/schema.js';
import { compressors } from 'hyparquet-compressors';
import { BadInput } from '../../base/problem.ts';
import { exactStamps, timeDigits, timeOf } from './parquet-stamps.ts';

/** Bytes that can be read anywhere. */
export interface RandomBytes {
  readonly size: number;
  read(from: number, to: number): Uint8Array;
}

/** Told each piece of text with the part of the rows done by then. */
type Take = (text: string, fraction: number) => void;

/** Rows in one piece of text. */
const rowsPerPiece = 4000;
/** Longest page and longest list of columns and groups [bytes]. */
const longest = 1 << 28;

/** Whether a file is Parquet, by its first bytes. */
export function isParquet(first: Uint8Array): boolean {
  return first[0] === 0x50 && first[1] === 0x41 && first[2] === 0x52 && first[3] === 0x31;
}

/** Bytes at hand. */
export function bytesAtHand(bytes: Uint8Array): RandomBytes {
  return { size: bytes.length, read: (from, to) => bytes.subarray(from, to) };
}

/** Hands the text on in pieces. What the library cannot read is BadInput. */
export function parquetPieces(file: RandomBytes, name: string, take: Take): void {
  try {
    const metadata = metadataOf(file);
    const total = Math.max(1, Number(metadata.num_rows));
    const tree = parquetSchema(metadata);
    const names = tree.children.map((child) => child.element.name);
    take(`${names.map(quoted).join(',')}\n`, 0);
    let done = 0;
    for (const group of metadata.row_groups) {
      const rows = Number(group.num_rows);
      const columns = tree.children.map((child) => cellsOfColumn(file, metadata, group, child.path, rows));
      for (const lines of linesOf(columns, rows)) {
        done += lines.length;
        take(`${lines.join('\n')}\n`, done / total);
      }
    }
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw unreadable(name, error instanceof Error ? error.message : String(error));
  }
}

function metadataOf(file: RandomBytes): FileMetaData {
  const tail = file.read(Math.max(0, file.size - 8), file.size);
  const length = tail.length < 8 ? 0 : new DataView(tail.buffer, tail.byteOffset).getUint32(0, true);
  if (file.size < 12 || length > file.size - 8 || length > longest) throw new Error('its end is missing');
  const end = file.read(file.size - 8 - length, file.size);
  return parquetMetadata(end.slice().buffer, { geoparquet: false });
}

type RowGroup = FileMetaData['row_groups'][number];

/** Cells of one column of a row group, page by page. */
function* cellsOfColumn(
  file: RandomBytes,
  metadata: FileMetaData,
  group: RowGroup,
  path: readonly string[],
  rows: number,
): Generator<ArrayLike<unknown>> {
  const meta = group.columns.map((column) => column.meta_data).find((m) => m?.path_in_schema[0] === path[0]);
  if (meta === undefined) return;
  const schemaPath = getTreePath(parquetSchema(metadata), meta.path_in_schema);
  if (!isFlatColumn(schemaPath)) return;
  const from = Number(meta.dictionary_page_offset ?? meta.data_page_offset);
  const bytes = file.read(from, from + Number(meta.total_compressed_size));
  const reader = { view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), offset: 0 };
  const { element } = schemaPath[schemaPath.length - 1]!;
  const digits = timeDigits(element);
  const decoder = {
    pathInSchema: meta.path_in_schema,
    element,
    schemaPath,
    codec: meta.codec,
    type: meta.type,
    parsers: exactStamps,
    compressors,
  };
  let dictionary: Parameters<typeof readPage>[3];
  let given = 0;
  while (given < rows && reader.offset < bytes.byteLength - 1) {
    const header = parquetHeader(reader);
    refuseUnsound(header, bytes.byteLength - reader.offset, rows);
    const { data } = readPage(reader, header, decoder, dictionary, undefined, 0);
    if (header.type === 'DICTIONARY_PAGE') dictionary = data && convert(data, decoder);
    else if (data !== undefined) {
      given += data.length;
      yield digits === null ? data : Array.from(data, (count) => timeOf(count, digits));
    }
  }
}

/** A page whose head cannot be true: of the library's loops some run for as long as such a number says. */
function refuseUnsound(header: ReturnType<typeof parquetHeader>, left: number, rows: number): void {
  const within = (value: number | undefined, most: number): boolean =>
    value !== undefined && value >= 0 && value <= most;
  const flat = header.data_page_header ?? header.dictionary_page_header;
  const second = header.data_page_header_v2;
  const sound =
    within(header.compressed_page_size, left) &&
    within(header.uncompressed_page_size, longest) &&
    within((flat ?? second)?.num_values, rows) &&
    (second === undefined ||
      (within(second.num_nulls, second.num_values) &&
        second.repetition_levels_byte_length === 0 &&
        within(second.definition_levels_byte_length, header.compressed_page_size)));
  if (!sound) throw new Error('a page whose head contradicts its column');
}

/** Lines of text made of columns whose pages are not alike; a column that ends early leaves empty cells. */
function* linesOf(
  columns: readonly Generator<ArrayLike<unknown>>[],
  rows: number,
): Generator<readonly string[]> {
  const open = columns.map((pages) => ({ pages, data: [] as ArrayLike<unknown>, at: 0, ended: false }));
  let done = 0;
  while (done < rows) {
    let most = Math.min(rowsPerPiece, rows - done);
    for (const column of open) {
      while (!column.ended && column.at === column.data.length) {
        const next = column.pages.next();
        if (next.done === true) column.ended = true;
        else [column.data, column.at] = [next.value, 0];
      }
      if (!column.ended) most = Math.min(most, column.data.length - column.at);
    }
    if (open.every((column) => column.ended)) throw new Error('fewer values than rows, or no flat column');
    const lines: string[] = [];
    for (let k = 0; k < most; k++) {
      lines.push(open.map(({ data, at, ended }) => (ended ? '' : cellOf(data[at + k]))).join(','));
    }
    for (const column of open) if (!column.ended) column.at += most;
    done += most;
    yield lines;
  }
}

function cellOf(value: unknown): string {
  switch (typeof value) {
    case 'number':
      return Number.isFinite(value) ? String(value) : '';
    case 'bigint':
    case 'boolean':
      return String(value);
    case 'string':
      return quoted(value);
    default:
      return '';
  }
}

function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

function unreadable(name: string, why: string): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file: name,
      found: `a Parquet file that cannot be read: ${why}`,
      expected: 'a whole Parquet file with flat columns of numbers, stamps and texts',
      mend: 'write it again, or export the recording as CSV',
    },
  ]);
}
