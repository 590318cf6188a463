import { onDisk } from '../disk/on-disk.ts';
import { csvTable } from './csv-table.ts';
import { parquetTable } from './parquet-table.ts';
import type { TableColumn, TableForm, TableWriter } from './table.ts';

const forms: Readonly<Record<TableForm, (path: string, columns: readonly TableColumn[]) => TableWriter>> = {
  csv: csvTable,
  parquet: parquetTable,
};

/** A table to be written to `path`. What the disk refuses is thrown as BadInput that names `target`. */
export function openTable(
  path: string,
  form: TableForm,
  columns: readonly TableColumn[],
  target = path,
): TableWriter {
  const writer = onDisk(target, () => forms[form](path, columns));
  return {
    write: (cells) => onDisk(target, () => writer.write(cells)),
    close: () => onDisk(target, () => writer.close()),
  };
}
