/** Limits that a matrix shows of every cell, whether they decide it or not: as a table each, redundancy side by side. */
import { numberText } from '../../analysis/words/number-text.ts';
import { BadInput } from '../../base/problem.ts';
import type { Limit } from '../../limits/limit.ts';
import { nearestOr } from '../../scenario/text/nearest.ts';
import type { RunOutcome, TrialFinding } from '../trials/run-outcome.ts';
import type { StudyFile } from '../written/study-file.ts';
import type { MatrixCell } from './cell.ts';
import type { MatrixReport } from './report.ts';

/** Names of limits, as the study writes them with commas between. Throws BadInput for one that the scenario has not. */
export function shownOf(study: StudyFile, limits: readonly Pick<Limit, 'id'>[]): readonly string[] {
  const text = study.words.get('shows');
  if (text === undefined) return [];
  const ids = [...new Set(limits.map(({ id }) => id))];
  const asked = [...new Set(text.split(',').map((id) => id.trim()))];
  const unknown = asked.filter((id) => !ids.includes(id));
  if (unknown.length === 0) return asked;
  throw new BadInput(
    unknown.map((id) => ({
      severity: 'error' as const,
      path: 'shows',
      found: id === '' ? 'nothing between two commas' : id,
      expected: 'names of limits of the scenario, with commas between',
      mend: nearestOr('name one of them', id, ids),
    })),
  );
}

/** What a run found of these limits, in their order; what does not arise is left out. */
export function findingsShown({ findings }: RunOutcome, shows: readonly string[]): readonly TrialFinding[] {
  return shows.flatMap((id) => findings.find((one) => one.id === id) ?? []);
}

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
