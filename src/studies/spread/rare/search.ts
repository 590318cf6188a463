/** The small probability of failing of a spread: its limit function is the tightest headroom of a run. */
import { replayOf } from '../../trials/replay.ts';
import { type RunOutcome, tightest } from '../../trials/run-outcome.ts';
import { letterOf } from '../../trials/states.ts';
import type { RunWhole, Trial } from '../../trials/trial.ts';
import type { SpreadPlan } from '../plan.ts';
import { drawnAt } from '../tolerance.ts';
import { probabilitiesAt } from './normals.ts';
import { rareProbability } from './rare.ts';
import type { Region } from './regions.ts';
import type { Point } from './subsets.ts';

export interface FailingRegion {
  /** Of what fails. */
  readonly share_ratio: number;
  /** How far off its middle lies, in standard deviations: what fails less often lies further. */
  readonly distance: number;
  /** Its middle: every drawn value, and how far off its own that lies; null where units that are drawn alike differ. */
  readonly middle: readonly {
    readonly path: string;
    readonly deviations: number;
    readonly value: string | null;
  }[];
  /** What takes it there, the most first: standard deviations of each drawn value; those within chance are left out. */
  readonly moves: readonly { readonly path: string; readonly deviations: number }[];
  /** Runs its middle. */
  readonly replay: string;
}

export interface RareReport {
  /** null: none of all runs fails. */
  readonly probability_ratio: number | null;
  readonly interval_ratio: readonly [number, number] | null;
  /** By the share of each level that fails, or by weighed draws about the regions. */
  readonly by: 'levels' | 'draws';
  readonly levels: number;
  /** All runs, the plain samples among them. */
  readonly runs: number;
  /** Of them: without a verdict, as numbers failed; they count as failing. */
  readonly numerical: number;
  readonly regions: readonly FailingRegion[];
}

/** `found`: outcomes of the plain samples, `points`: where they lie. */
export async function rareOf(
  plan: SpreadPlan,
  points: readonly Point[],
  found: readonly RunOutcome[],
  run: RunWhole,
): Promise<RareReport> {
  let numerical = 0;
  const marginOf = (outcome: RunOutcome): number => {
    if (letterOf(outcome) === 'E') numerical += 1;
    return tightest(outcome);
  };
  const first = found.map((outcome, k) => ({ point: points[k]!, margin: marginOf(outcome) }));
  const ask = async (asked: readonly Point[]): Promise<readonly number[]> =>
    (await run(asked.map((point) => trialAt(plan, point)))).map(marginOf);
  const result = await rareProbability(first, plan.rare!.runs, ask, plan.seed);
  return {
    probability_ratio: result.probability,
    interval_ratio: result.interval,
    by: result.by,
    levels: result.levels,
    runs: result.evaluations,
    numerical,
    regions: result.regions.map((region) => told(plan, region)),
  };
}

function trialAt({ study, variables }: Pick<SpreadPlan, 'study' | 'variables'>, point: Point): Trial<'run'> {
  const row = probabilitiesAt(point);
  return {
    kind: 'run',
    scenario: study.scenario,
    changes: [...study.changes, ...variables.flatMap((variable, j) => drawnAt(variable, row[j]!))],
  };
}

/** Deviations that chance gives a middle of so many points, three times over. */
const beyondChance = 3;

function told(plan: SpreadPlan, { centre, share, members }: Region): FailingRegion {
  const chance = beyondChance / Math.sqrt(members.length);
  const row = probabilitiesAt(centre);
  const middle = plan.variables.map((variable, j) => {
    const values = new Set(drawnAt(variable, row[j]!).map(({ value }) => value));
    const [value = null] = values;
    return { path: variable.path, deviations: centre[j]!, value: values.size === 1 ? value : null };
  });
  return {
    share_ratio: share,
    distance: Math.hypot(...centre),
    middle,
    moves: middle
      .map(({ path, deviations }) => ({ path, deviations }))
      .filter(({ deviations }) => Math.abs(deviations) > chance)
      .sort((a, b) => Math.abs(b.deviations) - Math.abs(a.deviations)),
    replay: replayOf(trialAt(plan, centre)),
  };
}
