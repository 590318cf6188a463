/** The table of published cases, `tests/reference/README.md`: one row of text per case. */
import { betweenMarks, fill } from './between-marks.ts';

export const casesPage = 'tests/reference/README.md';

const mark = 'published cases';

/** What a row is made of. */
export interface TableCase {
  readonly file: string;
  readonly what: string;
  readonly source: string;
  readonly unit?: string;
  readonly absolute?: boolean;
  readonly which: string;
  readonly expected: number;
  readonly found: number;
  readonly count: number;
  readonly error: number;
  readonly tolerance: number;
}

const head = [
  '| case | source | values | closest to its tolerance | expected | found | error | allowed |',
  '|---|---|---|---|---|---|---|---|',
].join('\n');

/** Six digits, without trailing zeros. */
function value(x: number, unit: string | undefined): string {
  const size = Math.abs(x);
  const text =
    size !== 0 && (size < 1e-4 || size >= 1e7) ? x.toExponential(4) : `${Number(x.toPrecision(6))}`;
  return unit === undefined ? text : `${text} ${unit}`;
}

/** A share or a difference. Rounding differs between machines: nothing is said of what is next to nothing. */
function size(x: number, digits: number, unit: string | null): string {
  if (x < 1e-10) return '< 1e−10';
  const share = unit === null && x >= 1e-4;
  const rounded = Number((share ? 100 * x : x).toPrecision(digits));
  const text = rounded < 1e-3 ? rounded.toExponential().replace('-', '−') : `${rounded}`;
  return `${text} ${share ? '%' : (unit ?? '')}`.trim();
}

export function caseRow(row: TableCase): string {
  const unit = row.absolute === true ? (row.unit ?? '') : null;
  const cells = [
    `[${row.what}](${row.file})`,
    row.source,
    `${row.count}`,
    row.which,
    value(row.expected, row.unit),
    // What differs by less than can be trusted is shown as it should be.
    value(row.error < 1e-10 ? row.expected : row.found, row.unit),
    size(row.error, 1, unit),
    size(row.tolerance, 2, unit),
  ];
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

export function rowsOf(text: string): string[] {
  return betweenMarks(text, mark)
    .split('\n')
    .filter((line) => line.startsWith('| ['));
}

export function withTable(text: string, rows: readonly string[]): string {
  return fill(text, mark, [head, ...rows].join('\n'));
}
