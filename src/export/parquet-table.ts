/**
 * A table as Parquet: numbers as binary64, texts as UTF-8, one row group a block. Values are stored plainly: a
 * dictionary would take −0 for 0.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import type { Cells, TableColumn, TableWriter } from './table.ts';

export function parquetTable(path: string, columns: readonly TableColumn[]): TableWriter {
  const file = openSync(path, 'w');
  const bytes = new ByteWriter();
  const drain = (): void => {
    const full = new Uint8Array(bytes.buffer, 0, bytes.index);
    for (let at = 0; at < full.length; ) at += writeSync(file, full, at);
    bytes.index = 0;
  };
  const writer = new ParquetWriter({
    writer: Object.assign(bytes, { flush: drain, finish: drain }),
    schema: [
      { name: 'root', num_children: columns.length },
      ...columns.map(({ name, holds, sparse }) => ({
        name,
        repetition_type: sparse ? ('OPTIONAL' as const) : ('REQUIRED' as const),
        ...(holds === 'number'
          ? { type: 'DOUBLE' as const }
          : { type: 'BYTE_ARRAY' as const, converted_type: 'UTF8' as const }),
      })),
    ],
  });
  return {
    write: (cells) => {
      const rows = cells[0]?.length ?? 0;
      if (rows === 0) return;
      writer.write({
        columnData: columns.map(({ name }, c) => ({ name, data: dataOf(cells[c]!), encoding: 'PLAIN' })),
        rowGroupSize: rows,
      });
    },
    close: () => {
      writer.finish();
      closeSync(file);
    },
  };
}

function dataOf(cells: Cells): Float64Array | (number | string | null)[] {
  return cells instanceof Float64Array ? cells : [...cells];
}
