/**
 * The least of a row of candidates that passes. A few candidates are tried all; of many, five spread evenly
 * and then the halves between one that fails and one that passes. That finds the least only where more never
 * hurts, so it is checked: where a limit passes at a smaller candidate and fails at a larger one, or comes
 * near without telling which way it goes, every candidate is tried, and that is said.
 */

/** A candidate as tried: headroom of every limit in every situation; below 0 is broken. */
export interface Tried {
  readonly passes: boolean;
  readonly headrooms: ReadonlyMap<string, number>;
}

export type TryCandidates = (indices: readonly number[]) => Promise<readonly Tried[]>;

export interface SearchResult {
  /** Index of the least that passes, or null. */
  readonly least: number | null;
  readonly tried: ReadonlyMap<number, Tried>;
  /** Limits that pass at a smaller candidate and fail at a larger one. */
  readonly reversed: readonly string[];
  /** Every candidate was tried. */
  readonly whole: boolean;
}

/** Up to this many candidates are all tried: cheaper than being clever, and the table is whole. */
const fewCandidates = 12;

/** About how many candidates of a row are tried. */
export function aboutTried(count: number): number {
  return count <= fewCandidates ? count : 5 + Math.ceil(Math.log2(count / 4));
}

/** Headroom within which a limit that goes up and down might break between two candidates. */
const near = 0.1;

export async function leastPassing(
  count: number,
  tryThem: TryCandidates,
  options: { readonly all?: boolean } = {},
): Promise<SearchResult> {
  const tried = new Map<number, Tried>();
  const take = async (indices: readonly number[]): Promise<void> => {
    const fresh = [...new Set(indices)].filter((k) => !tried.has(k)).sort((a, b) => a - b);
    const outcomes = await tryThem(fresh);
    for (const [j, k] of fresh.entries()) tried.set(k, outcomes[j]!);
  };
  const everything = Array.from({ length: count }, (_, k) => k);
  if (options.all === true || count <= fewCandidates) {
    await take(everything);
    return { least: leastOf(tried), tried: inOrder(tried), reversed: reversedIn(tried), whole: true };
  }
  await take([0, 1, 2, 3, 4].map((k) => Math.round((k * (count - 1)) / 4)));
  for (let next = between(tried); next !== null; next = between(tried)) await take([next]);
  if (isDoubtful(tried)) await take(everything);
  return {
    least: leastOf(tried),
    tried: inOrder(tried),
    reversed: reversedIn(tried),
    whole: tried.size === count,
  };
}

function leastOf(tried: ReadonlyMap<number, Tried>): number | null {
  return [...inOrder(tried)].find(([, { passes }]) => passes)?.[0] ?? null;
}

function inOrder(tried: ReadonlyMap<number, Tried>): ReadonlyMap<number, Tried> {
  return new Map([...tried].sort(([a], [b]) => a - b));
}

/** The middle between the least that passes and the one tried below it; null where they touch. */
function between(tried: ReadonlyMap<number, Tried>): number | null {
  const rows = [...inOrder(tried)];
  const k = rows.findIndex(([, { passes }]) => passes);
  if (k < 1) return null;
  const [below, here] = [rows[k - 1]![0], rows[k]![0]];
  return here - below < 2 ? null : Math.floor((below + here) / 2);
}

/** Limits that are kept at a smaller candidate and broken at a larger one. */
function reversedIn(tried: ReadonlyMap<number, Tried>): readonly string[] {
  return limitsOf(tried).filter((limit) => {
    let kept = false;
    for (const headroom of along(limit, tried)) {
      if (headroom >= 0) kept = true;
      else if (kept) return true;
    }
    return false;
  });
}

/** Whether candidates that were not tried could change the answer. */
function isDoubtful(tried: ReadonlyMap<number, Tried>): boolean {
  if (reversedIn(tried).length > 0) return true;
  return limitsOf(tried).some((limit) => {
    const row = along(limit, tried);
    const turns = row.some((headroom, k) => {
      const [before, after] = [row[k - 1], row[k + 1]];
      return before !== undefined && after !== undefined && (headroom - before) * (after - headroom) < -1e-6;
    });
    return turns && Math.min(...row.map(Math.abs)) < near;
  });
}

function limitsOf(tried: ReadonlyMap<number, Tried>): readonly string[] {
  return [...new Set([...tried.values()].flatMap(({ headrooms }) => [...headrooms.keys()]))];
}

function along(limit: string, tried: ReadonlyMap<number, Tried>): readonly number[] {
  return [...inOrder(tried).values()].flatMap(({ headrooms }) => headrooms.get(limit) ?? []);
}
