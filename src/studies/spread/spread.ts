/**
 * Tolerances sampled: how many of such cabinets pass, what the answer hangs on, and the worst of them. Ends
 * early once the yield is known well enough, which is asked of unbroken beginnings only.
 */
import type { Metrics } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';
import { filesOf, headOf, type StudyContext, type StudyHead } from '../context.ts';
import { replayOf } from '../replay.ts';
import { conditionsOf, type Letter, letterOf, type States, statesOf } from '../states.ts';
import type { StudyFile } from '../study-file.ts';
import {
  bindingOf,
  decidedBy,
  notJudged,
  passes,
  type Trial,
  type TrialOutcome,
  tightest,
} from '../trial.ts';
import { mostSamples, Sampler, type Sampling } from './sampling.ts';
import { type Histogram, histogram, percentile, rankCorrelation, rankNoise, wilson } from './statistics.ts';
import { drawnAt, outOfRange, type Variable, variablesOf } from './tolerance.ts';

export interface SpreadPlan {
  readonly study: StudyFile;
  readonly samples: number;
  readonly seed: number;
  readonly sampling: Sampling;
  /** Ends early when the yield's interval is no wider than twice this; null: never. */
  readonly half_width: number | null;
  /** What sensitivity is about: `headroom` (the tightest limit) or a metric. */
  readonly of: string;
  readonly variables: readonly Variable[];
  readonly trials: readonly Trial[];
  /** Probability drawn for each variable, by sample. */
  readonly rows: readonly Float64Array[];
  readonly inputs: StudyHead['inputs'];
}

export interface WorstSample {
  readonly sample: number;
  readonly verdict: string;
  readonly headroom_ratio: number;
  readonly binding: string;
  readonly conditions: readonly string[];
  readonly node: string | null;
  readonly changes: Trial['changes'];
  readonly replay: string;
}

export interface SpreadReport extends StudyHead {
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
    readonly status: TrialOutcome['status'];
    readonly headroom_ratio: number;
    readonly binding: string;
    readonly conditions: readonly string[];
    readonly warnings: readonly string[];
    readonly value: number | null;
  }[];
}

/** Samples between two looks at the interval, and how many there must be at least. */
const lookEvery = 20;
const leastSamples = 40;
const worstKept = 5;

/** Reads what is to be sampled and draws it all; throws BadInput. */
export function planSpread(study: StudyFile, read: StudyContext['read']): SpreadPlan {
  const samples = wordNumber(study, 'samples', 200, 1, mostSamples);
  const seed = wordNumber(study, 'seed', 1, 0, 2 ** 31);
  const sampling = study.words.get('sampling') ?? 'latin-hypercube';
  if (sampling !== 'latin-hypercube' && sampling !== 'plain') {
    refuse('sampling', sampling, listed(['latin-hypercube', 'plain']), 'write one of them');
  }
  const base = read({ scenario: study.scenario, changes: study.changes });
  const unknown = (path: string): never => {
    const near = nearestWords(path, base.paths);
    const mend =
      near.length === 0 ? 'the command check --paths lists them all' : `nearest: ${near.join(', ')}`;
    return refuse(path, `path ${path}`, 'a path of the scenario that is a number', mend);
  };
  const written = [...study.tolerances, ...(study.words.get('models') === 'yes' ? fromModels(base) : [])];
  if (written.length === 0) {
    refuse(
      'tolerances',
      'nothing to sample',
      'at least one tolerance',
      'say for example --tolerance "trays.esr=normal by 10 %"',
    );
  }
  const variables = variablesOf(written, base.cells, base.scenario.tick_s, unknown);
  const sampler = new Sampler(sampling as Sampling, samples, variables.length, seed);
  const rows = Array.from({ length: samples }, (_, k) => sampler.row(k));
  const impossible = outOfRange(variables, rows);
  if (impossible.length > 0) throw new BadInput(impossible);
  const trials = rows.map((row) => ({
    scenario: study.scenario,
    changes: [...study.changes, ...variables.flatMap((variable, j) => drawnAt(variable, row[j]!))],
  }));
  const width = study.words.get('half_width');
  const of = study.words.get('of') ?? 'headroom';
  if (of !== 'headroom' && !metricNames.includes(of as keyof Metrics)) {
    const near = nearestWords(of, metricNames);
    refuse(
      'of',
      of,
      'headroom or a metric',
      near.length === 0 ? `one of ${listed(metricNames)}` : `nearest: ${near.join(', ')}`,
    );
  }
  return {
    study,
    samples,
    seed,
    sampling: sampling as Sampling,
    half_width: width === undefined ? null : ratioOf('half_width', width),
    of,
    variables,
    trials,
    rows,
    inputs: [
      ...filesOf([study.inputs, base.scenario.inputs]),
      ...study.changes.map((change) => ({ change })),
    ],
  };
}

/** Whether a beginning tells enough. */
export function isEnough({ half_width }: SpreadPlan): (beginning: readonly TrialOutcome[]) => boolean {
  return (beginning) => {
    if (half_width === null || beginning.length < leastSamples || beginning.length % lookEvery !== 0)
      return false;
    const told = beginning.filter((outcome) => letterOf(outcome) !== 'E').length;
    const [low, high] = wilson(beginning.filter(passes).length, told);
    return high - low <= 2 * half_width;
  };
}

export function spreadReport(plan: SpreadPlan, outcomes: readonly TrialOutcome[]): SpreadReport {
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
    ...headOf(study, inputs),
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

export const metricNames: readonly (keyof Metrics)[] = [
  'bus_min_V',
  'bus_max_V',
  'shelf_current_max_A',
  'share_error_steady_ratio',
  'share_error_transient_ratio',
  'ac_power_mean_W',
  'ac_power_ripple_ratio',
  'ac_ramp_100ms_W_per_s',
  'ac_ramp_1s_W_per_s',
  'ac_line_current_rms_A',
  'tray_soc_min_ratio',
  'tray_soc_max_ratio',
  'tray_capacitor_current_rms_A',
  'battery_starts_count',
  'link_bar_current_max_A',
];

function metricOf({ metrics }: TrialOutcome, name: string): number | null {
  return metrics === null ? null : (metrics[name as keyof Metrics] ?? null);
}

/** Every value whose model states a low and a high, evenly between them. */
function fromModels({ notes, cells }: ReturnType<StudyContext['read']>): [string, string][] {
  return [...notes].flatMap(([path, note]): [string, string][] => {
    const value = cells.get(path)?.value;
    if (note.low === null || note.high === null || typeof value !== 'number' || !(note.low < note.high))
      return [];
    const { field } = cells.get(path)!;
    const dimension = field.kind === 'quantity' ? field.spec.dimension : 'ratio';
    const [low, high] = [formatQuantity(note.low, dimension), formatQuantity(note.high, dimension)];
    return [[path, `uniform from ${low} to ${high}`]];
  });
}

function wordNumber(study: StudyFile, key: string, fallback: number, least: number, most: number): number {
  const word = study.words.get(key);
  if (word === undefined) return fallback;
  const value = /^\d+$/.test(word) ? Number(word) : Number.NaN;
  if (value >= least && value <= most) return value;
  return refuse(
    key,
    `${word} ${key}`,
    `a whole number from ${least} to ${most}`,
    `write ${key}: ${fallback}, or --${key} ${fallback} on the command line`,
  );
}

function ratioOf(key: string, word: string): number {
  const match = /^([\d.]+)\s*(%?)$/.exec(word.trim());
  const value = match === null ? Number.NaN : Number(match[1]) / (match[2] === '%' ? 100 : 1);
  return value > 0 && value < 1
    ? value
    : refuse(key, word, 'a share above 0 and below 1', 'write it like 2 %');
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
