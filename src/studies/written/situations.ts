/** Everything that must pass: cases × corners × redundancy, each with its name and its changes. */
import type { Change } from '../../scenario/scenario.ts';
import type { StudyFile, Variant } from './study-file.ts';

/** One combination: a scenario and the changes to make before and after what is varied. */
export interface Situation {
  readonly name: string;
  readonly scenario: string;
  /** Study and case: before what is varied. */
  readonly before: readonly Change[];
  /** Corner and redundancy: after what is varied. */
  readonly after: readonly Change[];
}

const plain: readonly Variant[] = [{ name: '', changes: [] }];

export function situationsOf(study: StudyFile): readonly Situation[] {
  const or = (variants: readonly Variant[]): readonly Variant[] => (variants.length === 0 ? plain : variants);
  return or(study.cases).flatMap((one) =>
    or(study.corners).flatMap((corner) =>
      or(study.redundancy).map((spare) => ({
        name: [one.name, corner.name, spare.name].filter((word) => word !== '').join(', '),
        scenario: one.scenario ?? study.scenario,
        before: [...study.changes, ...one.changes],
        after: [...corner.changes, ...spare.changes],
      })),
    ),
  );
}
