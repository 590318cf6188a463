/** What a search varies: paths with their values, or names with designs. */
import type { Change } from '../../scenario/scenario.ts';
import type { ReadChanged } from '../trials/trial.ts';
import { refuseOverlaps } from '../written/overlap.ts';
import type { Situation } from '../written/situations.ts';
import type { StudyFile } from '../written/study-file.ts';
import { dimensionOf, valuesOf } from '../written/values.ts';
import { variedTo } from '../written/written-at.ts';

export interface Axis {
  readonly path: string;
  /** Values are numbers, from less to more, or designs, least first; places have no order. */
  readonly ordered: boolean;
  readonly values: readonly string[];
  /** What each value changes. */
  readonly changes: readonly (readonly Change[])[];
}

export function axesOf(
  study: StudyFile,
  situations: readonly Situation[],
  read: ReadChanged,
): readonly Axis[] {
  const { scenario, before } = situations[0]!;
  const { cells } = read({ scenario, changes: before });
  refuseOverlaps(
    study.vary.map(([path]) => path),
    cells,
    '--vary',
  );
  return study.vary.map((pair) => {
    const [path, text] = pair;
    const designs = study.designs[path];
    if (designs !== undefined) {
      return {
        path,
        ordered: true,
        values: designs.map(({ name }) => name),
        changes: designs.map(({ changes }) => changes),
      };
    }
    const dimension = dimensionOf(path, cells);
    const values = valuesOf(path, text, dimension, 'search');
    return {
      path,
      ordered: dimension !== null,
      values,
      changes: values.map((value) => [variedTo(pair, value)]),
    };
  });
}

export type ValuesByPath = Readonly<Record<string, string>>;

/** `trays.count = 9, banks.count = 2`. */
export function wordsOf(values: ValuesByPath): string {
  return Object.entries(values)
    .map(([path, value]) => `${path} = ${value}`)
    .join(', ');
}
