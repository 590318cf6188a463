/** Lists of a study's report as tables. */
import { settingColumn } from '../../studies/setting-column.ts';
import type { ExportTable, TableColumn } from '../table.ts';

export interface ListColumn extends TableColumn {
  readonly cells: readonly (number | null)[] | readonly (string | null)[];
}

type Pick<R, T> = (row: R) => T;

/** Makes columns of a list of rows, each by what it takes of a row. */
export function columnsFor<R>(rows: readonly R[]) {
  return {
    number: (name: string, of: Pick<R, number | null>): ListColumn => numbers(name, rows.map(of)),
    text: (name: string, of: Pick<R, string | null>): ListColumn => texts(name, rows.map(of)),
    /** Several texts in one cell. */
    list: (name: string, of: Pick<R, readonly string[]>): ListColumn =>
      texts(
        name,
        rows.map((row) => of(row).join('; ')),
      ),
    truth: (name: string, of: Pick<R, boolean>): ListColumn =>
      texts(
        name,
        rows.map((row) => String(of(row))),
      ),
    setting: (path: string, of: Pick<R, string | null>): ListColumn => settings(path, rows.map(of)),
  };
}

function numbers(name: string, cells: readonly (number | null)[]): ListColumn {
  return { name, holds: 'number', sparse: true, cells };
}

function texts(name: string, cells: readonly (string | null)[]): ListColumn {
  return { name, holds: 'text', sparse: true, cells };
}

/** Values as they are set, as numbers where they are quantities of one dimension. */
function settings(path: string, values: readonly (string | null)[]): ListColumn {
  const column = settingColumn(path, values);
  return column.holds === 'number' ? numbers(column.name, column.cells) : texts(column.name, column.cells);
}

export function listTable(name: string, columns: readonly ListColumn[]): ExportTable {
  return {
    name,
    columns: columns.map(({ name: column, holds, sparse }) => ({ name: column, holds, sparse })),
    rows: columns[0]?.cells.length ?? 0,
    block: (from, to) => columns.map(({ cells }) => cells.slice(from, to)),
  };
}
