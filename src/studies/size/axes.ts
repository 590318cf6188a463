/** What a sizing varies: one path or two, and the rows of candidates that they make. */
import { BadInput } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { ReadChanged } from '../trials/trial.ts';
import { refuseOverlaps } from '../written/overlap.ts';
import type { Situation } from '../written/situations.ts';
import type { StudyFile } from '../written/study-file.ts';
import { dimensionOf, valuesOf } from '../written/values.ts';

export interface SizeAxis {
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
): readonly SizeAxis[] {
  const { scenario, before } = situations[0]!;
  const { cells } = read({ scenario, changes: before });
  refuseOverlaps(
    study.vary.map(([path]) => path),
    cells,
    '--vary',
  );
  return study.vary.map(([path, text]) => {
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
    const values = valuesOf(path, text, dimension);
    return {
      path,
      ordered: dimension !== null,
      values,
      changes: values.map((value) => [{ path, value }]),
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

/** One row of candidates, along the last path. */
export interface AxisRow {
  /** Value of the first of two paths; null where one is varied. */
  readonly first: string | null;
  /** What each candidate changes, and what it is called. */
  readonly changes: readonly (readonly Change[])[];
  readonly values: readonly ValuesByPath[];
}

/** One row for each value of the first of two paths. */
export function rowsOf(axes: readonly SizeAxis[]): readonly AxisRow[] {
  const last = axes.at(-1)!;
  const first = axes.length === 2 ? axes[0]! : null;
  return (first?.values ?? [null]).map((value, j) => ({
    first: value,
    changes: last.changes.map((own) => [...(first?.changes[j] ?? []), ...own]),
    values: last.values.map((own) => ({
      ...(first === null ? {} : { [first.path]: value! }),
      [last.path]: own,
    })),
  }));
}

/** Throws BadInput where there is nothing to vary, or what is to be least is no product of two numbers. */
export function refuseAxes({ id, vary, words, designs }: StudyFile): void {
  if (vary.length !== 1 && vary.length !== 2) {
    refuse(
      'vary',
      vary.length === 0 ? `nothing to vary in ${id}` : `${vary.length} paths to vary`,
      'one path or two',
      'give for example --vary "trays.count=6 to 14"',
    );
  }
  if (words.get('least') === 'product' && vary.some(([path]) => designs[path] !== undefined)) {
    refuse(
      'least',
      'the least product of designs',
      'two numbers to multiply',
      'leave out least: the first design that passes is taken',
    );
  }
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
