/**
 * The worst of margins over loads, states, parts and tolerances. Every state at every load first; about the points that are
 * worst of most margins the states of parts; about the worst of all so far the samples, one end of each toleranced kind, and
 * the corners of the kinds that move margins most there. It finds what is this bad; it proves nothing of what was not asked.
 */
import type { RunTrials } from '../../trials/trial.ts';
import type { MarginsAt } from '../margins-at.ts';
import { badness, type Criterion, criteriaOf } from './criteria.ts';
import { cornersOf, type TolerancedKind } from './ends.ts';
import { type OverPlan, pursued } from './plan.ts';
import { asStated, type Point, pointTrial } from './point.ts';

export interface Asked {
  readonly point: Point;
  readonly found: MarginsAt;
}

/** How far one end of a kind moves a margin, over what the margin is. */
export interface Slope {
  readonly path: string;
  readonly at: Point;
  readonly criterion: Criterion;
  readonly change_ratio: number;
}

export interface Searched {
  readonly asked: readonly Asked[];
  readonly slopes: readonly Slope[];
}

export async function searchWorst(plan: OverPlan, run: RunTrials): Promise<Searched> {
  const asked: Asked[] = [];
  const slopes: Slope[] = [];
  const ask = async (points: readonly Point[]): Promise<readonly Asked[]> => {
    const found = await run(points.map((point) => pointTrial(plan.base, plan.shelf, point)));
    const answers = points.map((point, k): Asked => ({ point, found: found[k]! }));
    asked.push(...answers);
    return answers;
  };
  await ask(plan.grid);
  const worstNow = (): readonly Asked[] => worstPoints(asked).slice(0, pursued.points);
  await ask(
    worstNow().flatMap(({ point }) => plan.parts.slice(1).map((parts): Point => ({ ...point, parts }))),
  );
  const { tolerances } = plan;
  if (tolerances === null) return { asked, slopes };
  for (const { point, found } of worstNow()) {
    await ask(
      tolerances.samples.map((changes, k) => ({
        ...point,
        drawn: `sample ${k + 1} of ${tolerances.samples.length}`,
        changes,
      })),
    );
    const ends = await ask(
      tolerances.kinds.map((kind) => ({
        ...point,
        drawn: `${kind.path} at its high end`,
        changes: kind.changes.high,
      })),
    );
    const own = ends.flatMap((end, k) => slopesOf(tolerances.kinds[k]!, { point, found }, end, asked));
    slopes.push(...own);
    await ask(cornersOf(steepest(tolerances.kinds, own)).map((corner) => cornerPoint(point, corner)));
  }
  return { asked, slopes };
}

/** Points that are worst of some margin, those of most first. */
export function worstPoints(asked: readonly Asked[]): readonly Asked[] {
  const counts = new Map<Asked, number>();
  for (const criterion of criteriaOf(asked.map(({ found }) => found))) {
    const worst = worstOf(criterion, asked);
    if (worst !== null) counts.set(worst, (counts.get(worst) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1]).map(([one]) => one);
}

/** The first of those that are worst; null where it is bad nowhere: no such loop, or nothing within reach. */
export function worstOf(criterion: Criterion, asked: readonly Asked[]): Asked | null {
  let worst: Asked | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const one of asked) {
    const value = badness(criterion, one.found);
    if (value === null || !(value < least)) continue;
    [worst, least] = [one, value];
  }
  return worst;
}

function slopesOf(
  { path }: TolerancedKind,
  { point, found }: Asked,
  end: Asked,
  all: readonly Asked[],
): readonly Slope[] {
  return criteriaOf(all.map((one) => one.found)).flatMap((criterion) => {
    const [before, after] = [badness(criterion, found), badness(criterion, end.found)];
    if (before === null || after === null || !Number.isFinite(before)) return [];
    if (!Number.isFinite(after)) return [{ path, at: point, criterion, change_ratio: after > 0 ? 1 : -1 }];
    return [{ path, at: point, criterion, change_ratio: (after - before) / before }];
  });
}

/** The kinds that move some margin most. */
function steepest(kinds: readonly TolerancedKind[], slopes: readonly Slope[]): readonly TolerancedKind[] {
  const most = (path: string): number =>
    Math.max(
      0,
      ...slopes.filter((one) => one.path === path).map(({ change_ratio }) => Math.abs(change_ratio)),
    );
  return [...kinds].sort((a, b) => most(b.path) - most(a.path)).slice(0, pursued.kinds);
}

function cornerPoint(point: Point, corner: ReturnType<typeof cornersOf>[number]): Point {
  return {
    ...point,
    drawn: `corner: ${corner.map(([{ path }, end]) => `${path} ${end}`).join(', ')}`,
    changes: corner.flatMap(([kind, end]) => kind.changes[end]),
  };
}

export function isAsStated({ point }: Asked): boolean {
  return point.drawn === asStated && point.parts.length === 0 && point.state.length === 0;
}
