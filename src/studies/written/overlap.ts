/** Paths that reach the same value: of two that a study changes, the later one would win in silence. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Cell } from '../../scenario/sheet.ts';
import type { Variant } from './study-file.ts';
import { inKind } from './values.ts';

/** Whether two paths are the same, or one stands for a unit that the other one stands for as well. */
export function overlap(a: string, b: string, cells: ReadonlyMap<string, Cell>): boolean {
  if (a === b) return true;
  return [...cells.keys()].some((cell) => reaches(a, cell) && reaches(b, cell));
}

/**
 * A case with what was asked for on the command line standing over what the case itself says: of two that reach the same value
 * the later one counts, and a case comes after the changes of the whole study.
 */
export function askedOver(one: Variant, asked: readonly Change[]): Variant {
  const again = asked.filter(({ path }) =>
    one.changes.some((own) => reaches(path, own.path) || reaches(own.path, path)),
  );
  return again.length === 0 ? one : { ...one, changes: [...one.changes, ...again] };
}

/** Throws BadInput with every path that reaches what an earlier one reaches; `option`: how paths were named. */
export function refuseOverlaps(
  paths: readonly string[],
  cells: ReadonlyMap<string, Cell>,
  option: string,
): void {
  const problems = paths.flatMap((path, k): Problem[] => {
    const earlier = paths.slice(0, k).find((other) => overlap(other, path, cells));
    if (earlier === undefined) return [];
    const twice = earlier === path;
    return [
      {
        severity: 'error',
        file: option,
        path,
        found: twice ? `${path}, named twice` : `${path} beside ${earlier}, which reaches it as well`,
        expected: 'each value of the cabinet reached by one path',
        mend: 'leave one of them out',
      },
    ];
  });
  if (problems.length > 0) throw new BadInput(problems);
}

function reaches(path: string, cell: string): boolean {
  return path === cell || inKind(cell, path);
}
