/** What goes out as one file: columns of numbers or texts, row by row. */

export interface TableColumn {
  /** Quantity with its SI unit behind it, as channels have it. */
  readonly name: string;
  readonly holds: 'number' | 'text';
  /** Some of its cells may be empty. */
  readonly sparse: boolean;
}

/** The cells of one column over some rows; null: nothing stands there. */
export type Cells = Float64Array | Float32Array | readonly (number | null)[] | readonly (string | null)[];

export interface ExportTable {
  /** Of the file, without its ending. */
  readonly name: string;
  readonly columns: readonly TableColumn[];
  readonly rows: number;
  /** The cells of rows `from` up to `to`, in the order of the columns. */
  block(from: number, to: number): readonly Cells[];
}

export const tableForms = ['csv', 'parquet'] as const;

/** How tables are written; also the ending of the file's name. */
export type TableForm = (typeof tableForms)[number];

/** Takes blocks of rows, each as it comes; what was taken is on its way to disk and may be overwritten. */
export interface TableWriter {
  write(cells: readonly Cells[]): void;
  /** Ends the file. Without it the file is not whole. */
  close(): void;
}

/** A block holds about this many cells, 8 MB of numbers. */
const cellsPerBlock = 2 ** 20;

/** Rows to hold before they are written: what memory an export of so many columns takes does not grow with its rows. */
export function rowsPerBlock(columns: number): number {
  return Math.max(256, Math.min(65_536, Math.floor(cellsPerBlock / columns)));
}

/** A column of numbers without gaps. */
export function numberColumn(name: string): TableColumn {
  return { name, holds: 'number', sparse: false };
}
