import { counted } from '../../base/counted.ts';
import type { RowTaker } from './take-rows.ts';

/** Where some rows are short, the cell that they lack may be any of them; where all are, the header is longer. */
export function shortRows({ short, rows }: RowTaker): string[] {
  if (short === 0 || short === rows) return [];
  return [
    `${counted(short, 'row')} of ${rows} ${short === 1 ? 'has' : 'have'} fewer cells than the header: which cell is missing nobody knows, and a value may stand in the wrong column.`,
  ];
}
