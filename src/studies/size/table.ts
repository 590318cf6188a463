/** Which limit asks for how much. */
import { limitOf, situationOf } from '../search/candidates.ts';
import type { SearchResult } from '../search/least-passing.ts';

export interface TableRow {
  readonly limit: string;
  /** Smallest value tried from which on this limit is kept in every situation; null: at none. */
  readonly smallest: string | null;
  /** Nothing smaller was tried: it may be met by less still. */
  readonly or_less: boolean;
  /** The situation in which it is tightest at the result, or at the nearest. */
  readonly situation: string;
  readonly headroom_ratio: number;
  /** It asks for as much as the result: this limit decides. */
  readonly decides: boolean;
}

/** Rows with the most demanding limit first. */
export function constraintTable(
  { least, tried }: SearchResult,
  values: readonly string[],
): readonly TableRow[] {
  const indices = [...tried.keys()];
  const at = tried.get(least ?? indices.at(-1)!)!;
  const limits = new Set([...tried.values()].flatMap(({ headrooms }) => [...headrooms.keys()].map(limitOf)));
  const rows = [...limits].map((limit) => {
    const worst = (k: number): readonly [string, number] | null =>
      [...tried.get(k)!.headrooms]
        .filter(([key]) => limitOf(key) === limit)
        .reduce<readonly [string, number] | null>((a, b) => (a === null || b[1] < a[1] ? b : a), null);
    let from: number | null = null;
    for (const k of [...indices].reverse()) {
      if ((worst(k)?.[1] ?? 0) < 0) break;
      from = k;
    }
    const here = [...at.headrooms]
      .filter(([key]) => limitOf(key) === limit)
      .reduce<readonly [string, number] | null>((a, b) => (a === null || b[1] < a[1] ? b : a), null);
    return {
      from,
      row: {
        limit,
        smallest: from === null ? null : values[from]!,
        or_less: from === indices[0],
        situation: here === null ? '' : situationOf(here[0]),
        headroom_ratio: here?.[1] ?? 1,
        decides: from !== null && least !== null && from === least && from !== indices[0],
      },
    };
  });
  const rank = (from: number | null): number => from ?? Number.POSITIVE_INFINITY;
  return rows
    .sort((a, b) => rank(b.from) - rank(a.from) || a.row.headroom_ratio - b.row.headroom_ratio)
    .map(({ row }) => row);
}
