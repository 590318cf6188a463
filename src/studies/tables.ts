/** Tables as Markdown and as CSV (RFC 4180). */
import { numberCell, textCell } from '../base/csv-cell.ts';

export type PlainRow = readonly (string | number | boolean | null)[];

export function markdownTable(head: readonly string[], rows: readonly PlainRow[]): string {
  const line = (cells: PlainRow): string => `| ${cells.map(markdownCell).join(' | ')} |`;
  return [line(head), `|${head.map(() => '---').join('|')}|`, ...rows.map(line)].join('\n');
}

export function csvTable(head: readonly string[], rows: readonly PlainRow[]): string {
  return [head, ...rows].map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

function markdownCell(cell: PlainRow[number]): string {
  return cell === null ? '' : String(cell).replaceAll('|', '\\|').replaceAll('\n', ' ');
}

function csvCell(cell: PlainRow[number]): string {
  if (typeof cell === 'number') return numberCell(cell);
  return cell === null ? '' : textCell(String(cell));
}
