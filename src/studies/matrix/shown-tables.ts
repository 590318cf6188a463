/** The limits that a matrix shows, as a table each, redundancy side by side. */
import { numberText } from '../../analysis/words/number-text.ts';
import type { TrialFinding } from '../trials/run-outcome.ts';
import type { MatrixCell } from './cell.ts';
import type { MatrixReport } from './report.ts';

export interface ShownTable {
  readonly limit: string;
  readonly rows: readonly { readonly name: string; readonly cells: readonly MatrixCell[] }[];
}

/** One for each limit that is shown: a row for each fault and redundancy, a column for each corner. */
export function shownTables({
  shows = [],
  faults,
  redundancy,
  corners,
  cells,
}: MatrixReport): readonly ShownTable[] {
  return shows.map((limit) => ({
    limit,
    rows: faults.flatMap((fault, f) =>
      redundancy.map((spare, r) => {
        const first = (f * redundancy.length + r) * corners.length;
        const name = [...(faults.length > 1 ? [fault] : []), ...(redundancy.length > 1 ? [spare] : [])].join(
          ', ',
        );
        return { name: name === '' ? fault : name, cells: cells.slice(first, first + corners.length) };
      }),
    ),
  }));
}

export function shownIn({ shown = [] }: MatrixCell, limit: string): TrialFinding | null {
  return shown.find(({ id }) => id === limit) ?? null;
}

/** The value and where it is. */
export function shownText(cell: MatrixCell, limit: string): string {
  const found = shownIn(cell, limit);
  if (found === null || found.value === null) return 'does not arise';
  return `${numberText(found.value, found.unit, 3)}${found.node === null ? '' : ` ${found.node}`}`;
}
