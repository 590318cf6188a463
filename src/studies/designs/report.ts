/** What a study of designs found: the front, why each is on it, every design as far as it was taken, bills of parts. */
import { filesOf, headOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { ValuesByPath } from '../search/axes.ts';
import { type CandidateRow, candidateRow } from '../search/candidate-row.ts';
import { wilson } from '../spread/statistics.ts';
import { type States, statesOf } from '../trials/states.ts';
import type { Bill } from './bill.ts';
import { blindAxes } from './blind-axes.ts';
import { type Course, throughOf } from './course.ts';
import type { Objective } from './objectives.ts';
import type { DesignsPlan } from './plan.ts';
import { beats, frontOf } from './rank.ts';
import { type Rival, rivalsOf } from './rivals.ts';

/** `front`: passes, and nothing that passes beats it. `beaten`: something that passes beats it, whatever it comes to. */
export type Standing = 'front' | 'passes, beaten' | 'beaten' | 'fails';

export interface DesignRow {
  readonly values: ValuesByPath;
  readonly standing: Standing;
  /** By objective, in SI; null where it is not known, as it was not run so far. */
  readonly objectives: Readonly<Partial<Record<Objective, number | null>>>;
  /** The situations that it was run in; null: none. */
  readonly run: CandidateRow | null;
}

export interface FrontRow extends DesignRow {
  readonly run: CandidateRow;
  readonly bill: Bill;
  /** Of its yield (Wilson, 95 %); null where none was asked for. */
  readonly yield_interval_ratio: readonly [number, number] | null;
  /** What would take its place if it passed, and how near it came; null: nothing could. */
  readonly rivals: Rival | null;
}

export interface DesignsReport extends StudyHead {
  readonly limit_titles: LimitTitles;
  readonly objectives: readonly Objective[];
  readonly varied: readonly string[];
  readonly situations: readonly string[];
  /** In the order of the first objective. */
  readonly front: readonly FrontRow[];
  /** Every combination, the first path slowest. */
  readonly designs: readonly DesignRow[];
  /** Objectives that are sums of figures, each with the paths whose values it does not tell apart. */
  readonly blind: readonly { readonly objective: Objective; readonly paths: readonly string[] }[];
  readonly states: States;
  readonly samples: number | null;
  /** Simulations the answer rests on. */
  readonly runs: number;
}

export function designsReport(plan: DesignsPlan, courses: readonly Course[], runs: number): DesignsReport {
  const { study, reads, objectives, situations, axes, identity } = plan;
  const through = courses.filter(({ isThrough }) => isThrough);
  const front = frontOf(through, ({ best }) => best);
  const rowOf = (course: Course): DesignRow => ({
    values: course.design.values,
    standing: standingOf(course, front, through),
    objectives: Object.fromEntries(objectives.map((objective) => [objective, course.value(objective)])),
    run:
      course.outcomes.length === 0
        ? null
        : candidateRow({ ...course.design, outcomes: course.outcomes }, throughOf(course, situations)),
  });
  const inOrder = [...front].sort((a, b) => a.best[0]! - b.best[0]!);
  return {
    ...headOf(
      study,
      [
        ...filesOf([study.inputs, ...reads.map(({ scenario }) => scenario.inputs), identity.inputs]),
        ...study.changes.map((change) => ({ change })),
      ],
      reads.map(({ scenario }) => scenario.nominal_V),
    ),
    limit_titles: limitTitles(reads.map(({ scenario }) => scenario)),
    objectives,
    varied: axes.map(({ path }) => path),
    situations: situations.map(({ name }) => (name === '' ? 'as it is' : name)),
    front: inOrder.map((course) => {
      const row = rowOf(course);
      const { passed, of } = course.sampled;
      return {
        ...row,
        run: row.run!,
        bill: course.design.bill,
        yield_interval_ratio: of === 0 ? null : wilson(passed, of),
        rivals: rivalsOf(course, courses, situations),
      };
    }),
    designs: courses.map(rowOf),
    blind: blindAxes(plan),
    states: statesOf(courses.flatMap(({ outcomes }) => outcomes)),
    samples: plan.sampled?.samples ?? null,
    runs,
  };
}

function standingOf(course: Course, front: readonly Course[], through: readonly Course[]): Standing {
  if (course.failed) return 'fails';
  if (front.includes(course)) return 'front';
  if (!through.some((other) => beats(other.best, course.best)))
    throw new RangeError('a design was left out that nothing beats');
  return course.isThrough ? 'passes, beaten' : 'beaten';
}
