/** What a search for the worst margins found, as it is kept, printed and drawn. */
import type { Change } from '../../../scenario/scenario.ts';
import type { ChangedScenario } from '../../trials/trial.ts';
import type { WorstMode } from '../margins-at.ts';
import { badness, type Criterion, criteriaOf } from './criteria.ts';
import { partsName } from './part-changes.ts';
import type { OverPlan } from './plan.ts';
import { type Point, pointCommand, pointWords } from './point.ts';
import { type Asked, isAsStated, type Searched, type Slope, worstOf } from './search.ts';

/** The worst of one margin; a value of null: it is beyond reach wherever it was asked. */
export interface WorstMargin extends Criterion {
  /** As built, as stated, at the highest load; null: none there, or beyond reach. */
  readonly nominal: number | null;
  readonly value: number | null;
  /** A mode grows there: there is no margin at all. */
  readonly unstable: boolean;
  /** Name of the point among `points`; null where nothing is worst. */
  readonly point: string | null;
}

/** A point that is worst of something, and how it is repeated by itself. */
export interface WorstPoint {
  readonly name: string;
  readonly words: string;
  readonly load_W: number;
  readonly state: readonly string[];
  readonly parts: string;
  readonly drawn: string;
  /** Values that differ from those of the scenario as stated. */
  readonly changes: readonly Change[];
  /** Shelves at a clamp there, whose voltage loops do not act. */
  readonly clamped: readonly string[];
  readonly command: string;
}

/** A point as it was asked: what each margin came to, by its place among `worst`. */
export interface AskedPoint {
  readonly load_W: number;
  readonly state: string;
  readonly parts: string;
  readonly drawn: string;
  /** Why there is no settled point; null where there is one. */
  readonly reason: string | null;
  readonly growing: WorstMode | null;
  readonly slow: WorstMode | null;
  readonly fast: WorstMode | null;
  readonly values: readonly (number | null)[];
}

export interface Band {
  readonly curve: string;
  readonly frequency_Hz: readonly number[];
  readonly low_dB: readonly (number | null)[];
  readonly high_dB: readonly (number | null)[];
}

export interface OverFound {
  readonly loads_W: readonly number[];
  readonly states: readonly (readonly string[])[];
  readonly not_asked: OverPlan['states']['not_asked'];
  readonly parts: readonly string[];
  readonly tolerances: {
    readonly samples: number;
    readonly seed: number;
    readonly drawn: readonly (readonly [path: string, tolerance: string])[];
  } | null;
  readonly worst: readonly WorstMargin[];
  readonly points: readonly WorstPoint[];
  /** What one end of each toleranced kind does to the margins at the points that were pursued, the largest first. */
  readonly slopes: readonly {
    readonly path: string;
    readonly of: string;
    readonly what: string;
    readonly change_ratio: number;
    readonly at: string;
  }[];
  readonly asked: readonly AskedPoint[];
  /** Curves between the least and the most of the point by itself and all points that are worst of something. */
  readonly bands: readonly Band[];
}

/** What the report says of the search but its bands, and the points that are worst. */
export function foundOf(
  plan: OverPlan,
  base: ChangedScenario,
  { asked, slopes }: Searched,
): { readonly found: Omit<OverFound, 'bands'>; readonly worst: readonly Point[] } {
  const criteria = criteriaOf(asked.map(({ found }) => found));
  const nominal = asked.find((one) => isAsStated(one) && one.point.load === plan.loads.at(-1)) ?? null;
  const worstAsked = criteria.map((criterion) => worstOf(criterion, asked));
  const points = [...new Set(worstAsked.flatMap((one) => one ?? []))];
  const named = (one: Asked): string => `P${points.indexOf(one) + 1}`;
  const worst = criteria.map((criterion, k): WorstMargin => {
    const at = worstAsked[k]!;
    const value = at === null ? null : badness(criterion, at.found);
    return {
      ...criterion,
      nominal: finite(nominal === null ? null : badness(criterion, nominal.found)),
      value: finite(value),
      unstable: value === Number.NEGATIVE_INFINITY,
      point: at === null ? null : named(at),
    };
  });
  const { tolerances } = plan;
  return {
    worst: points.map(({ point }) => point),
    found: {
      loads_W: plan.loads.map(({ load_W }) => load_W),
      states: plan.states.asked,
      not_asked: plan.states.not_asked,
      parts: plan.parts.map(partsName),
      tolerances:
        tolerances === null
          ? null
          : { samples: tolerances.samples.length, seed: tolerances.seed, drawn: tolerances.drawn },
      worst,
      points: points.map((one) => worstPoint(named(one), one, plan, base)),
      slopes: steepestOf(slopes),
      asked: asked.map((one) => askedPoint(one, criteria)),
    },
  };
}

function worstPoint(
  name: string,
  { point, found }: Asked,
  plan: OverPlan,
  base: ChangedScenario,
): WorstPoint {
  return {
    name,
    words: pointWords(point),
    load_W: point.load.load_W,
    state: point.state,
    parts: partsName(point.parts),
    drawn: point.drawn,
    changes: [...point.changes, ...point.parts],
    clamped: found.clamped,
    command: pointCommand(base, plan.shelf, point),
  };
}

function askedPoint({ point, found }: Asked, criteria: readonly Criterion[]): AskedPoint {
  const { reason, growing, slow, fast } = found;
  return {
    load_W: point.load.load_W,
    state: point.state.join(', '),
    parts: partsName(point.parts),
    drawn: point.drawn,
    ...{ reason, growing, slow, fast },
    values: criteria.map((criterion) => finite(badness(criterion, found))),
  };
}

/** Slopes that are worth a row: one for each kind and point, of the margin that it moves most. */
function steepestOf(slopes: readonly Slope[]): OverFound['slopes'] {
  const most = new Map<string, Slope>();
  for (const slope of slopes) {
    const key = `${slope.path} ${pointWords(slope.at)}`;
    const before = most.get(key);
    if (before === undefined || Math.abs(slope.change_ratio) > Math.abs(before.change_ratio))
      most.set(key, slope);
  }
  return [...most.values()]
    .sort((a, b) => Math.abs(b.change_ratio) - Math.abs(a.change_ratio))
    .map(({ path, at, criterion, change_ratio }) => ({
      path,
      ...criterion,
      change_ratio,
      at: pointWords(at),
    }));
}

/** JSON has no infinity: beyond reach, or no margin. */
function finite(x: number | null): number | null {
  return x !== null && Number.isFinite(x) ? x : null;
}
