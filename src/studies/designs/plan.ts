/** What a study of designs tries: every combination of what is varied, each with its bill, in every situation. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change, InputFile } from '../../scenario/scenario.ts';
import { type Axis, axesOf, type ValuesByPath } from '../search/axes.ts';
import { trialsOf } from '../search/candidates.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import { type Situation, situationsOf } from '../written/situations.ts';
import type { StudyFile } from '../written/study-file.ts';
import { wholeNumber } from '../written/whole-number.ts';
import { type Bill, billOf } from './bill.ts';
import { refuseLacking } from './lacking.ts';
import { isFigure, type Objective, objectivesOf } from './objectives.ts';
import { drawsOf, type YieldAsked } from './yields.ts';

/** Most designs: each is read before anything runs. */
const mostDesigns = 1000;

export interface Design {
  readonly values: ValuesByPath;
  readonly changes: readonly Change[];
  readonly bill: Bill;
  /** Changes of each sample of its yield; none where no yield is asked for. */
  readonly draws: readonly (readonly Change[])[];
}

export interface DesignsPlan extends Planned {
  readonly study: StudyFile;
  readonly situations: readonly Situation[];
  /** Each situation as read, with the first design. */
  readonly reads: readonly ReadScenario[];
  readonly objectives: readonly Objective[];
  readonly axes: readonly Axis[];
  /** The first axis slowest. */
  readonly designs: readonly Design[];
  readonly sampled: YieldAsked | null;
}

/**
 * Reads every design; throws BadInput with what cannot be, or lacks a figure, before anything runs. `onRead`: told how many
 * of how many are read.
 */
export function planDesigns(
  study: StudyFile,
  read: ReadChanged,
  onRead: (done: number, all: number) => void = () => {},
): DesignsPlan {
  const objectives = objectivesOf(study.words.get('objectives'));
  if (study.vary.length === 0) refuse('nothing to vary', 'at least one path with its values');
  const situations = situationsOf(study);
  const axes = axesOf(study, situations, read);
  const count = axes.reduce((product, { values }) => product * values.length, 1);
  if (count > mostDesigns) refuse(`${count} designs`, `at most ${mostDesigns}`);
  const first = situations[0]!;
  const sampled = objectives.includes('yield')
    ? {
        samples: wholeNumber(study, 'samples', 100, 1, 10_000),
        seed: wholeNumber(study, 'seed', 1, 0, 2 ** 31),
      }
    : null;
  const changed: (readonly InputFile[])[] = [];
  const designs = combinations(axes).map(({ values, changes }, k): Design => {
    onRead(k, count);
    const own = read(trialsOf([first], changes)[0]!);
    changed.push(own.scenario.inputs);
    return {
      values,
      changes,
      bill: billOf(own, study.figures, changes),
      draws: sampled === null ? [] : drawsOf(study, sampled, own),
    };
  });
  refuseLacking(
    designs.map(({ bill }) => bill),
    objectives.filter(isFigure),
  );
  const reads = situations.map((situation) => read(trialsOf([situation], designs[0]!.changes)[0]!));
  return {
    ...plannedFrom(study, read, {}, [...reads.map(({ scenario }) => scenario.inputs), ...changed]),
    expects: designs.length * situations.length * (1 + (sampled?.samples ?? 0)),
    study,
    situations,
    reads,
    objectives,
    axes,
    designs,
    sampled,
  };
}

/** Every value of each axis with every one of the others. */
function combinations(axes: readonly Axis[]): readonly Pick<Design, 'values' | 'changes'>[] {
  return axes.reduce<readonly Pick<Design, 'values' | 'changes'>[]>(
    (before, { path, values, changes }) =>
      before.flatMap((one) =>
        values.map((value, k) => ({
          values: { ...one.values, [path]: value },
          changes: [...one.changes, ...changes[k]!],
        })),
      ),
    [{ values: {}, changes: [] }],
  );
}

/** Every design in every situation: what the parts of a search that is split run between them. */
export function designGrid({ designs, situations }: DesignsPlan): readonly Trial<'run'>[] {
  return designs.flatMap(({ changes }) => trialsOf(situations, changes));
}

function refuse(found: string, expected: string): never {
  const mend = 'give for example --vary "trays.count=8 to 14" --vary "banks.count=1 to 4"';
  const problem: Problem = { severity: 'error', path: 'vary', found, expected, mend };
  throw new BadInput([problem]);
}
