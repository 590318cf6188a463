/** What a spread found: the yield with its interval, what it depends on, the worst samples. */
import type { Change } from '../../scenario/scenario.ts';
import { groupPath } from '../../scenario/sheet.ts';
import { headOf, type StudyHead } from '../head.ts';
import type { LimitTitles } from '../limit-titles.ts';
import { replayOf } from '../trials/replay.ts';
import { bindingOf, decidedBy, notJudged, passes, type RunOutcome, tightest } from '../trials/run-outcome.ts';
import { conditionsOf, type Letter, letterOf, type States, statesOf } from '../trials/states.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import { type AskNext, askNext } from './ask-next.ts';
import { metricNames, metricOf } from './metrics.ts';
import type { SpreadPlan } from './plan.ts';
import type { RareReport } from './rare/search.ts';
import type { Sampling } from './sampling.ts';
import { type Histogram, histogram, percentile, rankCorrelation, rankNoise, wilson } from './statistics.ts';

export interface WorstSample {
  readonly sample: number;
  readonly verdict: string;
  readonly headroom_ratio: number;
  readonly binding: string;
  readonly conditions: readonly string[];
  readonly node: string | null;
  readonly changes: readonly Change[];
  readonly replay: string;
}

export interface SpreadReport extends StudyHead {
  /** The small probability of failing, where it was asked for. */
  readonly rare?: RareReport;
  readonly limit_titles: LimitTitles;
  /** What every sample begins from; the values drawn come behind (`sample-trial.ts`). */
  readonly base: ChangedScenario;
  readonly runs: number;
  readonly asked: number;
  readonly stopped_early: boolean;
  readonly seed: number;
  readonly sampling: Sampling;
  readonly passed: number;
  /** Of those that pass: with conditions, and the limits that could not be judged in them. */
  readonly conditional: number;
  readonly not_judged: readonly string[];
  readonly states: States;
  /** Of the samples that came to a verdict; one whose numbers failed says nothing of the cabinet. */
  readonly yield_ratio: number;
  /** Covers the true yield 95 times of 100. */
  readonly interval_ratio: readonly [number, number];
  readonly fails: readonly { readonly limit: string; readonly count: number }[];
  readonly worst: readonly WorstSample[];
  readonly of: string;
  readonly sensitivity: readonly {
    readonly path: string;
    readonly rank_correlation: number;
    readonly clear: boolean;
  }[];
  /** Which figure to ask for next, and what holding it in its better half would buy; none where chance may have done it. */
  readonly ask_next: readonly AskNext[];
  /** Correlations below this are what chance gives. */
  readonly noise: number;
  readonly histogram: Histogram;
  readonly metrics: readonly {
    readonly name: string;
    readonly min: number;
    readonly p5: number;
    readonly p50: number;
    readonly p95: number;
    readonly max: number;
  }[];
  /** What was drawn, as it was set: of each varied value one text a sample. */
  readonly drawn: readonly { readonly path: string; readonly values: readonly string[] }[];
  readonly samples: readonly {
    readonly verdict: string;
    readonly letter: Letter;
    readonly status: RunOutcome['status'];
    readonly headroom_ratio: number;
    readonly binding: string;
    readonly conditions: readonly string[];
    readonly warnings: readonly string[];
    readonly value: number | null;
  }[];
}

const worstKept = 5;

export function spreadReport(plan: SpreadPlan, found: readonly RunOutcome[]): SpreadReport {
  const outcomes = withDrawnNamed(plan, found);
  const { study, variables, trials, rows, samples, seed, sampling, of, inputs } = plan;
  const runs = outcomes.length;
  const passed = outcomes.filter(passes).length;
  const states = statesOf(outcomes);
  const told = runs - states.numerical;
  const open = outcomes.filter(({ verdict }) => verdict === 'pass_with_conditions');
  const headrooms = outcomes.map(tightest);
  // Numbers that failed are of no cabinet: neither their headroom nor a metric of them counts.
  const values = outcomes.map((outcome, k) => {
    if (letterOf(outcome) === 'E') return null;
    return of === 'headroom' ? headrooms[k]! : metricOf(outcome, of);
  });
  const able = values.flatMap((value, k) => (value === null ? [] : [k]));
  const noise = rankNoise(able.length);
  const sensitivity = variables
    .map(({ path }, j) => {
      const correlation = rankCorrelation(
        able.map((k) => rows[k]![j]!),
        able.map((k) => values[k]!),
      );
      return { path, rank_correlation: correlation, clear: Math.abs(correlation) > noise };
    })
    .sort((a, b) => Math.abs(b.rank_correlation) - Math.abs(a.rank_correlation));
  const fails = new Map<string, number>();
  for (const outcome of outcomes) {
    const failed = outcome.findings.filter(({ verdict }) => verdict === 'fail').map(({ id }) => id);
    const broken = [...new Set(failed)];
    if (broken.length === 0 && !passes(outcome)) broken.push(decidedBy(outcome));
    for (const id of broken) fails.set(id, (fails.get(id) ?? 0) + 1);
  }
  const worst = headrooms
    .map((headroom, k) => ({ headroom, k }))
    .sort((a, b) => a.headroom - b.headroom || a.k - b.k)
    .slice(0, worstKept)
    .map(({ headroom, k }): WorstSample => {
      const binding = bindingOf(outcomes[k]!);
      return {
        sample: k + 1,
        verdict: outcomes[k]!.verdict,
        headroom_ratio: headroom,
        binding: binding?.id ?? decidedBy(outcomes[k]!),
        conditions: conditionsOf(outcomes[k]!),
        node: binding?.node ?? null,
        changes: trials[k]!.changes,
        replay: replayOf(trials[k]!),
      };
    });
  return {
    ...headOf(study, inputs, [plan.nominal_V]),
    limit_titles: plan.limit_titles,
    base: { scenario: study.scenario, changes: study.changes },
    runs,
    asked: samples,
    stopped_early: runs < samples,
    seed,
    sampling,
    passed,
    conditional: open.length,
    not_judged: notJudged(open),
    states,
    yield_ratio: told === 0 ? 0 : passed / told,
    interval_ratio: wilson(passed, told),
    fails: [...fails].map(([limit, count]) => ({ limit, count })).sort((a, b) => b.count - a.count),
    worst,
    of,
    sensitivity,
    ask_next: askNext(
      variables,
      rows,
      outcomes.map((outcome) => (letterOf(outcome) === 'E' ? null : passes(outcome))),
      (path) => groupPath(path) ?? path,
      (path) => plan.sources.get(path) ?? null,
    ),
    noise,
    histogram: histogram(able.map((k) => values[k]!)),
    metrics: metricNames.flatMap((name) => {
      const all = outcomes.flatMap((outcome) => metricOf(outcome, name) ?? []);
      if (all.length === 0) return [];
      const at = (p: number): number => percentile(all, p);
      return [{ name, min: at(0), p5: at(0.05), p50: at(0.5), p95: at(0.95), max: at(1) }];
    }),
    drawn: drawnOf(plan, runs),
    samples: outcomes.map((outcome, k) => ({
      verdict: outcome.verdict,
      letter: letterOf(outcome),
      status: outcome.status,
      headroom_ratio: headrooms[k]!,
      binding: bindingOf(outcome)?.id ?? decidedBy(outcome),
      conditions: conditionsOf(outcome),
      warnings: outcome.warnings,
      value: values[k]!,
    })),
  };
}

/** The values that the first `runs` samples were run with. */
function drawnOf({ study, variables, trials }: SpreadPlan, runs: number): SpreadReport['drawn'] {
  const skip = study.changes.length;
  const paths = variables.flatMap(({ cells }) => cells.map(({ path }) => path));
  return paths.map((path, j) => ({
    path,
    values: trials.slice(0, runs).map(({ changes }) => changes[skip + j]!.value),
  }));
}

/** A drawn value that conditions a sample is one condition of the spread, not another one in each sample. */
function withDrawnNamed({ variables }: SpreadPlan, outcomes: readonly RunOutcome[]): readonly RunOutcome[] {
  const drawn = variables.flatMap(({ cells }) => cells.map(({ path }) => path));
  const named = (condition: string): string => {
    const path = drawn.find((one) => condition.startsWith(`${one} `) && condition.includes(' → '));
    return path === undefined ? condition : `${groupPath(path) ?? path} as drawn`;
  };
  return outcomes.map((outcome) => ({
    ...outcome,
    conditions: [...new Set(outcome.conditions.map(named))],
  }));
}
