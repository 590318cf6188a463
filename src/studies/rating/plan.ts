/** What a rating tries: of every situation, and of every point of a curve, the changes that each scale makes. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import { type Situation, situationsOf } from '../written/situations.ts';
import type { StudyFile } from '../written/study-file.ts';
import { pulsedTasks } from './pulsed.ts';
import { scaledBy, scaledPaths, scalesOf } from './scales.ts';
import type { CurvePoint, RatingTask } from './task.ts';

export interface RatingPlan extends Planned {
  readonly study: StudyFile;
  /** Run every scale, whatever the search would leave out. */
  readonly all: boolean;
  readonly situations: readonly Situation[];
  readonly reads: readonly ReadScenario[];
  /** The largest first, so that the least index is the largest load. */
  readonly scales: readonly number[];
  readonly scaled: readonly (readonly string[])[];
  /** One for each situation; behind them, where a curve is wanted, the steady load and each of its points. */
  readonly tasks: readonly RatingTask[];
  readonly points: readonly CurvePoint[];
}

/** Throws BadInput. */
export function planRating(
  study: StudyFile,
  read: ReadChanged,
  options: { readonly all?: boolean } = {},
): RatingPlan {
  const all = options.all === true;
  const [duties, periods] = [listOf(study.words.get('duty')), listOf(study.words.get('period'))];
  const situations = situationsOf(study);
  const reads = situations.map(({ scenario, before, after }) =>
    read({ scenario, changes: [...before, ...after] }),
  );
  const scales = scalesOf(study);
  const scaled = situations.map((_, k) => scaledPaths(study, reads[k]!));
  const curve =
    duties.length === 0 && periods.length === 0
      ? { tasks: [], points: [] }
      : pulsedTasks(situations[0]!, reads[0]!, scales, { duties, periods });
  return {
    ...plannedFrom(
      study,
      read,
      { duties, periods, all },
      reads.map((one) => one.scenario.inputs),
    ),
    study,
    all,
    situations,
    reads,
    scales,
    scaled,
    tasks: [
      ...situations.map((situation, k) => ({
        situation,
        changes: scales.map((scale) => scaledBy(scale, scaled[k]!, reads[k]!)),
      })),
      ...curve.tasks,
    ],
    points: curve.points,
  };
}

function listOf(text = ''): readonly string[] {
  return text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}
