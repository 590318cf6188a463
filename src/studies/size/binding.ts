/** The limit that an answer depends on, or that keeps a search from one. */
import { type Candidate, limitOf, situationOf } from '../search/candidates.ts';
import type { SearchResult } from '../search/least-passing.ts';
import { nearestOf, tightestIn, worstOf } from '../search/never-clears.ts';
import type { TrialFinding } from '../trials/run-outcome.ts';
import type { Situation } from '../written/situations.ts';

export interface Binding {
  readonly limit: string;
  readonly situation: string;
  /** Headroom at the result, or the nearest that a search without solution came; 0: it lies on its limit. */
  readonly headroom_ratio: number;
  /** The limit's own numbers there; null where no limit decides or it was not judged. */
  readonly numbers: Pick<TrialFinding, 'value' | 'limit' | 'unit' | 'headroom_ratio'> | null;
  /** Headroom one step below, where the limit is exceeded; null where nothing less was tried. */
  readonly below_ratio: number | null;
  readonly node: string | null;
  /** Why this one: it exceeded one step below, it is the tightest, or it never clears. */
  readonly why:
    | 'exceeded one step below'
    | 'tightest at the result'
    | 'tightest at the roomiest'
    | 'never clears';
  /** Value of what is varied that came nearest, where nothing passes. */
  readonly at: string | null;
}

export function bindingAt(
  found: SearchResult,
  situations: readonly Situation[],
  values: readonly string[],
  solved: boolean,
  ordered: boolean,
  candidateAt: (index: number) => Candidate | undefined,
): Binding | null {
  const here = solved ? found.tried.get(found.least!) : undefined;
  const below = solved && ordered && found.least! > 0 ? found.tried.get(found.least! - 1) : undefined;
  let key: string;
  let headroom: number;
  let why: Binding['why'];
  let nearest: string | null = null;
  let at = found.least ?? 0;
  if (here !== undefined) {
    why = ordered ? 'tightest at the result' : 'tightest at the roomiest';
    if (below !== undefined) why = 'exceeded one step below';
    [key] = below === undefined ? tightestIn(here) : tightestIn(below);
    headroom = here.headrooms.get(key) ?? worstOf(here);
  } else {
    const near = nearestOf(found);
    [key, headroom, why, nearest] = [near.key, near.headroom, 'never clears', values[near.at]!];
    at = near.at;
  }
  const limit = limitOf(key);
  const situation = situationOf(key);
  const k = situations.findIndex(({ name }) => name === situation);
  const finding = candidateAt(at)?.outcomes[k]?.findings.find(({ id }) => id === limit);
  const below_ratio = below?.headrooms.get(key) ?? null;
  const numbers = finding === undefined ? null : numbersAt(finding);
  return {
    limit,
    situation,
    headroom_ratio: headroom,
    numbers,
    below_ratio,
    node: finding?.node ?? null,
    why,
    at: nearest,
  };
}

function numbersAt({ value, limit, unit, headroom_ratio }: TrialFinding): Binding['numbers'] {
  return { value, limit, unit, headroom_ratio };
}
