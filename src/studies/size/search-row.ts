import type { Shown } from '../search/candidate-row.ts';
import { type Candidate, textOf, trier } from '../search/candidates.ts';
import { leastPassing, type SearchResult } from '../search/least-passing.ts';
import type { Search } from '../search/rounds.ts';
import { roomiest } from './choose.ts';
import type { SizePlan } from './plan.ts';
import type { AxisRow } from './rows.ts';

/** What the search along a row found, and every candidate that it tried. */
export interface SearchedRow {
  readonly found: SearchResult;
  readonly candidates: readonly Shown[];
}

/** The least of a row that passes. Places have no less and more: all are tried, and the roomiest is taken. */
export function searchRow(
  { situations, last, all }: Pick<SizePlan, 'situations' | 'last' | 'all'>,
  { changes, values }: AxisRow,
): Search<SearchedRow> {
  return async (run) => {
    const seen = new Map<string, Candidate>();
    const tryThem = trier(situations, (k) => changes[k]!, run, seen);
    const found = await leastPassing(changes.length, tryThem, { all: all || !last.ordered });
    const candidates = [...found.tried.keys()].map((k) => ({
      ...seen.get(textOf(changes[k]!))!,
      values: values[k]!,
    }));
    return { found: last.ordered ? found : roomiest(found), candidates };
  };
}
