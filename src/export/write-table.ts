import { join } from 'node:path';
import { openTable } from './open-table.ts';
import { type ExportTable, rowsPerBlock, type TableForm } from './table.ts';

/** Writes a table into a folder, block by block; gives the file's name. */
export function writeTable(folder: string, form: TableForm, table: ExportTable): string {
  const file = `${table.name}.${form}`;
  const writer = openTable(join(folder, file), form, table.columns);
  const most = rowsPerBlock(table.columns.length);
  for (let from = 0; from < table.rows; from += most)
    writer.write(table.block(from, Math.min(table.rows, from + most)));
  writer.close();
  return file;
}
