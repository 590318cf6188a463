/**
 * Why a design is on the front: what would beat it if it passed; and of the best in an objective, what would be better in
 * that one.
 */
import type { ValuesByPath } from '../search/axes.ts';
import { bindingOf, decidedBy, type RunOutcome, tightest } from '../trials/run-outcome.ts';
import type { Situation } from '../written/situations.ts';
import type { Course } from './course.ts';
import { beats, type Point } from './rank.ts';

export interface Rival {
  /** How many there are; none of them passes. */
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
  const through = courses.filter(({ isThrough }) => isThrough);
  const best = course.best.map((_, k) => Math.min(...through.map((other) => other.best[k]!)));
  const rivals = courses
    .filter((other) => other.failed && isRival(other.best, course.best, best))
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

function isRival(other: Point, own: Point, best: Point): boolean {
  return beats(other, own) || own.some((value, k) => value === best[k] && other[k]! < value);
}

function worstOf(outcomes: readonly RunOutcome[]): { readonly at: number; readonly headroom: number } {
  const rooms = outcomes.map(tightest);
  const headroom = Math.min(...rooms);
  return { at: rooms.indexOf(headroom), headroom };
}
