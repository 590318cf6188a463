/** Why a design is on the front: what would beat it, if it passed. */
import type { ValuesByPath } from '../search/axes.ts';
import { bindingOf, decidedBy, type RunOutcome, tightest } from '../trials/run-outcome.ts';
import type { Situation } from '../written/situations.ts';
import type { Course } from './course.ts';
import { beats } from './rank.ts';

export interface Rival {
  /** How many would beat it and do not pass. */
  readonly count: number;
  /** The one of them that came nearest to passing, what it fails by and where. */
  readonly values: ValuesByPath;
  readonly limit: string;
  readonly situation: string;
  readonly headroom_ratio: number;
}

export function rivalsOf(
  course: Course,
  courses: readonly Course[],
  situations: readonly Situation[],
): Rival | null {
  const rivals = courses
    .filter((other) => other.failed && beats(other.best, course.best))
    .map((other) => ({ other, ...worstOf(other.outcomes) }));
  if (rivals.length === 0) return null;
  const { other, at, headroom } = rivals.reduce((a, b) => (b.headroom > a.headroom ? b : a));
  const outcome = other.outcomes[at]!;
  return {
    count: rivals.length,
    values: other.design.values,
    limit: bindingOf(outcome)?.id ?? decidedBy(outcome).replaceAll('_', ' '),
    situation: situations[at]!.name,
    headroom_ratio: headroom,
  };
}

function worstOf(outcomes: readonly RunOutcome[]): { readonly at: number; readonly headroom: number } {
  const rooms = outcomes.map(tightest);
  const headroom = Math.min(...rooms);
  return { at: rooms.indexOf(headroom), headroom };
}
