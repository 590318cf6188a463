/** What a sizing tries: every candidate in every situation that must pass, and the levers to pull in the end. */
import type { ReadScenario } from '../../scenario/read.ts';
import { type Estimate, estimate } from '../estimate/estimate.ts';
import { type Axis, axesOf } from '../search/axes.ts';
import { trialsOf } from '../search/candidates.ts';
import { aboutTried } from '../search/least-passing.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import { type Situation, situationsOf } from '../written/situations.ts';
import type { StudyFile } from '../written/study-file.ts';
import { type FittingLever, leversOf } from './fitting-levers.ts';
import { type AxisRow, refuseAxes, rowsOf } from './rows.ts';
import { flattening } from './scaled-lever.ts';

export interface SizePlan extends Planned {
  readonly study: StudyFile;
  /** Run every candidate, whatever the search would leave out. */
  readonly all: boolean;
  readonly situations: readonly Situation[];
  /** Each situation as read, with the first candidate. */
  readonly reads: readonly ReadScenario[];
  /** The last axis: candidates of a row lie along it. */
  readonly last: Axis;
  readonly rows: readonly AxisRow[];
  /** What would help next; none where it is not asked for. */
  readonly levers: readonly FittingLever[];
  readonly estimate: Estimate | null;
}

/**
 * Reads the ends of every row; throws BadInput with what cannot be before anything runs. `levers`: false leaves out what
 * would help next.
 */
export function planSize(
  study: StudyFile,
  read: ReadChanged,
  options: { readonly all?: boolean; readonly levers?: boolean } = {},
): SizePlan {
  refuseAxes(study);
  const situations = situationsOf(study);
  const axes = axesOf(study, situations, read);
  const rows = rowsOf(axes);
  const reads = situations.map((situation) => read(trialsOf([situation], rows[0]!.changes[0]!)[0]!));
  // Numbers are read at their ends; each of those that are words may name a file of its own.
  const others = rows.flatMap(({ changes }) =>
    (axes.every(({ ordered }) => ordered) ? changes.slice(-1) : changes).map((own) =>
      read(trialsOf([situations[0]!], own)[0]!),
    ),
  );
  const changed = [...reads, ...others].map((one) => one.scenario.inputs);
  const { scenario, before } = situations[0]!;
  const asItIs = read({ scenario, changes: before }).cells;
  const levers = options.levers === false ? [] : leversOf(study, read, situations, rows);
  const tried = rows.reduce((sum, { changes }) => sum + aboutTried(changes.length), 0);
  return {
    ...plannedFrom(study, read, {}, changed),
    warnings: options.levers === false ? [] : study.levers.flatMap((lever) => flattening(lever, asItIs)),
    // One more for what is there without a lever.
    expects: (tried + (levers.length === 0 ? 0 : levers.length + 1)) * situations.length,
    study,
    all: options.all === true,
    situations,
    reads,
    last: axes.at(-1)!,
    rows,
    levers,
    estimate: estimateOf(study, situations, read),
  };
}

/** Hand rules for one situation of each case, without what is varied. */
function estimateOf(study: StudyFile, situations: readonly Situation[], read: ReadChanged): Estimate | null {
  const cases =
    study.cases.length === 0
      ? [{ name: '', situation: situations[0]! }]
      : study.cases.map(({ name }) => ({
          name,
          situation: situations.find((situation) => situation.name.startsWith(name))!,
        }));
  return estimate(
    cases.map(({ name, situation: { scenario, before } }) => ({
      name,
      read: read({ scenario, changes: before }),
    })),
  );
}

/** Every candidate in every situation: what the parts of a search that is split run between them. */
export function sizeGrid({ rows, situations }: SizePlan): readonly Trial<'run'>[] {
  return rows.flatMap(({ changes }) => changes.flatMap((own) => trialsOf(situations, own)));
}
