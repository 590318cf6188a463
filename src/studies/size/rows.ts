/** The rows of candidates that the one or two axes of a sizing make. */
import { BadInput } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Axis, ValuesByPath } from '../search/axes.ts';
import type { StudyFile } from '../written/study-file.ts';

/** One row of candidates, along the last path. */
export interface AxisRow {
  /** Value of the first of two paths; null where one is varied. */
  readonly first: string | null;
  /** What each candidate changes, and what it is called. */
  readonly changes: readonly (readonly Change[])[];
  readonly values: readonly ValuesByPath[];
}

/** One row for each value of the first of two paths. */
export function rowsOf(axes: readonly Axis[]): readonly AxisRow[] {
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
