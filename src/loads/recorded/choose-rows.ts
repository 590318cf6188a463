import { type ColumnReport, findColumn } from '../../tables/columns/column-report.ts';

/** Rows that count: those whose cell in a column is this. */
export interface RowFilter {
  readonly index: number;
  readonly name: string;
  readonly value: string;
}

/** Filters as options write them, `COLUMN=VALUE`. */
export function chooseRows(
  names: readonly string[],
  wanted: readonly string[],
  report: ColumnReport,
): RowFilter[] {
  return wanted.flatMap((text) => {
    const cut = text.indexOf('=');
    if (cut < 1) {
      report(`--where ${text}`, 'a column and a value', 'write it like --where metric=power_W');
      return [];
    }
    const name = text.slice(0, cut).trim();
    const index = findColumn(names, name, '--where', report);
    return index < 0 ? [] : [{ index, name, value: text.slice(cut + 1).trim() }];
  });
}
