/**
 * The largest load that passes: every power of the load (or the paths that are named) is multiplied by one
 * scale, tried in steps. By situation, and for pulse trains as a curve over duty and period against the steady
 * load that the same cabinet takes.
 */
import { BadInput } from '../../base/problem.ts';
import { formatPercent, formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { nearestWords } from '../../scenario/text/nearest.ts';
import { filesOf, headOf, type StudyContext, type StudyHead } from '../context.ts';
import { type Situation, situationsOf } from '../cross.ts';
import { replayOf } from '../replay.ts';
import { inRounds, type Search } from '../rounds.ts';
import { type Candidate, limitOf, textOf, trialsOf, trier } from '../size/candidates.ts';
import { nearestOf, tightestIn } from '../size/never-clears.ts';
import { leastPassing } from '../size/search.ts';
import { conditionsOf, type Letter, type States, statesOf, worstLetter } from '../states.ts';
import type { StudyFile } from '../study-file.ts';
import { notJudged, type TrialFinding, type TrialOutcome } from '../trial.ts';
import { inKind, valuesOf } from '../values.ts';

export interface RatingRow {
  readonly situation: string;
  /** Largest scale that passes, or null. */
  readonly scale_ratio: number | null;
  /** Scaled values at that scale, or at the one that came nearest. */
  readonly values: Readonly<Record<string, string>>;
  /** Breaks one step above; where nothing passes, never clears. */
  readonly binding: string;
  readonly headroom_ratio: number;
  /** The binding limit's own numbers where it is exceeded; null where it is not a limit or none was. */
  readonly exceeded: Pick<TrialFinding, 'value' | 'limit' | 'unit' | 'headroom_ratio'> | null;
  /** How the scale that passes came out; null where none does. */
  readonly letter: Letter | null;
  /** The largest that was tried passes: the rating lies at or above it. */
  readonly or_more: boolean;
  readonly reversed: readonly string[];
  /** Where nothing passes: the scale at which `binding` came nearest. */
  readonly nearest_ratio: number | null;
  /** Limits that could not be judged at that scale: it passes with these conditions. */
  readonly not_judged: readonly string[];
  /** What its pass rests on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  readonly replay: string;
}

export interface CurvePoint {
  readonly duty: string;
  readonly period: string;
  readonly high_W: number | null;
  readonly pulsed_over_steady_ratio: number | null;
  readonly binding: string;
  /** How the high level that passes came out; null where none does. */
  readonly letter: Letter | null;
  readonly conditions: readonly string[];
  readonly replay: string;
}

export interface RatingReport extends StudyHead {
  /** Over all situations. */
  readonly scale_ratio: number | null;
  readonly binding: string;
  readonly table: readonly RatingRow[];
  readonly scaled: readonly string[];
  readonly steady: { readonly power_W: number | null; readonly binding: string } | null;
  readonly curve: readonly CurvePoint[];
  /** How every scale that was run came out. */
  readonly states: States;
  readonly runs: number;
}

export interface RatingOptions {
  readonly all?: boolean;
  readonly duties?: readonly string[];
  readonly periods?: readonly string[];
}

/** What common practice grants a pulsed load of the steady rating; it has no source. */
export const commonPulsedRatio = 5 / 6;

/** One rating: a situation and how a scale changes it. */
interface RatingTask {
  readonly situation: Situation;
  readonly changesAt: (scale: number) => readonly Change[];
}

interface RatingPlan {
  readonly situations: readonly Situation[];
  readonly reads: readonly ReadScenario[];
  readonly scales: readonly number[];
  readonly scaled: readonly (readonly string[])[];
  /** One for each situation; behind them, where a curve is wanted, the steady load and each of its points. */
  readonly tasks: readonly RatingTask[];
  readonly points: readonly { readonly duty: string; readonly period: string }[];
}

function planRating(study: StudyFile, read: StudyContext['read'], options: RatingOptions): RatingPlan {
  const situations = situationsOf(study);
  const reads = situations.map(({ scenario, before, after }) =>
    read({ scenario, changes: [...before, ...after] }),
  );
  const scaled = situations.map((_, k) => scaledPaths(study, reads[k]!));
  const { duties = [], periods = [] } = options;
  const curve =
    duties.length === 0 && periods.length === 0
      ? { tasks: [], points: [] }
      : pulsedTasks(situations[0]!, reads[0]!, duties, periods);
  return {
    situations,
    reads,
    scales: scalesOf(study),
    scaled,
    tasks: [
      ...situations.map((situation, k) => ({
        situation,
        changesAt: (scale: number) => scaledBy(scale, scaled[k]!, reads[k]!),
      })),
      ...curve.tasks,
    ],
    points: curve.points,
  };
}

/** How many ratings a study asks for: each is a search of its own. */
export function ratingCount(study: StudyFile, read: StudyContext['read'], options: RatingOptions): number {
  return planRating(study, read, options).tasks.length;
}

/** Runs the searches of those ratings that `own` takes, for a study that is split; gives how many they were. */
export async function ratingPart(
  study: StudyFile,
  { read, run }: StudyContext,
  options: RatingOptions,
  own: (index: number) => boolean,
): Promise<number> {
  const { tasks, scales } = planRating(study, read, options);
  const rows = await inRounds(
    tasks.filter((_, k) => own(k)).map((task) => searchRow(task, scales, options)),
    run,
  );
  return rows.length;
}

export async function rating(
  study: StudyFile,
  { read, run }: StudyContext,
  options: RatingOptions = {},
): Promise<RatingReport> {
  const { situations, reads, scales, scaled, tasks, points } = planRating(study, read, options);
  const all: TrialOutcome[] = [];
  const counted: typeof run = async (trials, enough) => {
    const outcomes = await run(trials, enough);
    all.push(...outcomes);
    return outcomes;
  };
  const rows = await inRounds(
    tasks.map((task) => searchRow(task, scales, options)),
    counted,
  );
  const table = rows.slice(0, situations.length);
  const [level = null, ...curved] = rows.slice(situations.length);
  const lowest = table.reduce((a, b) => ((b.scale_ratio ?? -1) < (a.scale_ratio ?? -1) ? b : a));
  const { load } = reads[0]!.scenario;
  const peak = ({ scale_ratio }: RatingRow): number | null =>
    scale_ratio === null || load.kind !== 'pulse-train' ? null : load.high_W * scale_ratio;
  const steady_W = level === null ? null : peak(level);
  return {
    ...headOf(study, [
      ...filesOf([study.inputs, ...reads.map(({ scenario }) => scenario.inputs)]),
      ...study.changes.map((change) => ({ change })),
    ]),
    scale_ratio: lowest.scale_ratio,
    binding: lowest.binding,
    table,
    scaled: [...new Set(scaled.flat())],
    steady: level === null ? null : { power_W: steady_W, binding: level.binding },
    curve: curved.map((row, k) => {
      const high_W = peak(row);
      return {
        ...points[k]!,
        high_W,
        pulsed_over_steady_ratio: high_W === null || steady_W === null ? null : high_W / steady_W,
        binding: row.binding,
        letter: row.letter,
        conditions: row.conditions,
        replay: row.replay,
      };
    }),
    states: statesOf(all),
    runs: all.length,
  };
}

/** The largest scale of a task that passes. Largest first, so that the least index is the largest load. */
function searchRow(
  { situation, changesAt }: RatingTask,
  scales: readonly number[],
  options: RatingOptions,
): Search<RatingRow> {
  return async (run) => {
    const at = (k: number): readonly Change[] => changesAt(scales[k]!);
    const seen = new Map<string, Candidate>();
    const found = await leastPassing(scales.length, trier([situation], at, run, seen), options);
    const nearest = found.least === null ? nearestOf(found) : null;
    const k = found.least ?? nearest!.at;
    const [key] =
      nearest === null ? tightestIn(found.tried.get(k - 1) ?? found.tried.get(k)!) : [nearest.key];
    const limit = limitOf(key);
    const beyond = nearest?.at ?? k - 1;
    const over = beyond < 0 ? undefined : seen.get(textOf(at(beyond)));
    const finding = over?.outcomes[0]?.findings.find(({ id, verdict }) => id === limit && verdict === 'fail');
    const passed = found.least === null ? [] : seen.get(textOf(at(k)))!.outcomes;
    return {
      situation: situation.name === '' ? 'as it is' : situation.name,
      scale_ratio: found.least === null ? null : scales[k]!,
      values: Object.fromEntries(at(k).map(({ path, value }) => [path, value])),
      binding: limit.replaceAll('_', ' '),
      exceeded: finding === undefined ? null : numbersIn(finding),
      letter: passed.length === 0 ? null : worstLetter(passed),
      headroom_ratio: nearest?.headroom ?? found.tried.get(k)!.headrooms.get(key) ?? 0,
      or_more: found.least === 0,
      reversed: found.reversed.map(limitOf),
      nearest_ratio: nearest === null ? null : scales[nearest.at]!,
      not_judged: notJudged(passed),
      conditions: [...new Set(passed.flatMap(conditionsOf))],
      warnings: [...new Set(passed.flatMap(({ warnings }) => warnings))],
      replay: replayOf(trialsOf([situation], at(k))[0]!),
    };
  };
}

function numbersIn({ value, limit, unit, headroom_ratio }: TrialFinding): RatingRow['exceeded'] {
  return { value, limit, unit, headroom_ratio };
}

/** The steady load, then a pulse train for each period and duty. */
function pulsedTasks(
  situation: Situation,
  { scenario: { load } }: ReadScenario,
  duties: readonly string[],
  periods: readonly string[],
): Pick<RatingPlan, 'tasks' | 'points'> {
  if (load.kind !== 'pulse-train') {
    throw new BadInput([
      {
        severity: 'error',
        path: 'load.kind',
        found: `a load of kind ${load.kind}`,
        expected: 'a pulse train, for a curve over duty and period',
        mend: 'rate a scenario with load: { kind: pulse-train, … }',
      },
    ]);
  }
  const power = (value: number): string => formatQuantity(value, 'power', digits);
  const points = (periods.length === 0 ? [`${load.period_s} s`] : periods).flatMap((period) =>
    (duties.length === 0 ? [String(load.duty_ratio)] : duties).map((duty) => ({ duty, period })),
  );
  return {
    points,
    tasks: [
      {
        situation,
        // A pulse train whose levels are the same is a steady load.
        changesAt: (scale) => [
          { path: 'load.low', value: power(load.high_W * scale) },
          { path: 'load.high', value: power(load.high_W * scale) },
        ],
      },
      ...points.map(({ duty, period }) => ({
        situation,
        // The low level of the pulses stays what it is.
        changesAt: (scale: number) => [
          { path: 'load.period', value: period },
          { path: 'load.duty', value: duty },
          { path: 'load.high', value: power(Math.max(load.low_W, load.high_W * scale)) },
        ],
      })),
    ],
  };
}

/** Significant digits of a scaled value. */
const digits = 9;

function scaledBy(scale: number, paths: readonly string[], { cells }: ReadScenario): readonly Change[] {
  return paths.flatMap((path) => {
    const targets = cells.has(path) ? [path] : [...cells.keys()].filter((cell) => inKind(cell, path));
    return targets.map((target) => {
      const { field, value } = cells.get(target)!;
      const dimension = field.kind === 'quantity' ? field.spec.dimension : 'ratio';
      return { path: target, value: formatQuantity(Number(value) * scale, dimension, digits) };
    });
  });
}

/** Paths that are scaled: those named, or every power of the load; of a recording played as it is, its scale. */
function scaledPaths(study: StudyFile, { cells, paths, scenario }: ReadScenario): readonly string[] {
  const isNumber = (path: string): boolean => {
    const cell = cells.get(path);
    return cell?.field.kind === 'quantity' && typeof cell.value === 'number';
  };
  if (study.scale.length > 0) {
    const wrong = study.scale.filter(
      (path) => !isNumber(path) && ![...cells.keys()].some((cell) => inKind(cell, path)),
    );
    if (wrong.length === 0) return study.scale;
    throw new BadInput(
      wrong.map((path) => {
        const near = nearestWords(path, [...paths]);
        return {
          severity: 'error' as const,
          path,
          found: `path ${path}`,
          expected: 'a path of the scenario that is a number',
          mend:
            near.length === 0 ? 'the command check --paths lists them all' : `nearest: ${near.join(', ')}`,
        };
      }),
    );
  }
  const powers = [...cells].flatMap(([path, { field }]) =>
    path.startsWith('load.') &&
    field.kind === 'quantity' &&
    field.spec.dimension === 'power' &&
    isNumber(path)
      ? [path]
      : [],
  );
  return powers.length === 0 && scenario.load.kind === 'recorded' ? ['load.scale'] : powers;
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}

/** Scales to try, the largest first. */
function scalesOf({ words }: StudyFile): readonly number[] {
  const from = words.get('from') ?? '50 %';
  const to = words.get('to') ?? '150 %';
  const within = words.get('within') ?? '1 %';
  const read = (path: string, text: string): number => {
    const reading = readQuantity(text, 'ratio');
    if (!reading.ok) throw new BadInput([{ severity: 'error', path, ...reading }]);
    if (reading.value > 0) return reading.value;
    return refuse(path, `${text}, which is not above 0`, 'a share above 0', 'write it like 50 %');
  };
  const [low, high] = [read('from', from), read('to', to)];
  if (low > high)
    refuse('from', `scales from ${from} to ${to}`, 'the smallest scale first', `write from ${to} to ${from}`);
  const step = read('within', within);
  const most = 1000;
  if ((high - low) / step >= most) {
    const share = low >= 5 ? `write from ${low} % to ${high} %; ` : '';
    refuse(
      'within',
      `more than ${most} scales from ${formatPercent(low)} to ${formatPercent(high)}, ${within} apart`,
      `at most ${most}`,
      `${share}take a larger step within which the rating is found`,
    );
  }
  return valuesOf('scale', `${from} to ${to} by ${within}`, 'ratio')
    .map(Number)
    .sort((a, b) => b - a);
}
