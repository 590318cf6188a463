/**
 * Problems under the path that was asked for: what a change of all units of a kind makes of one of them, `banks.K1.capacitance`, is
 * said of the change, `banks.capacitance`. What names one unit, and what a file says of it, stays as it is.
 */
import type { Problem } from '../../base/problem.ts';
import type { PlacedChange } from '../sections/run-fields.ts';
import { groupPath } from '../sheet.ts';

export function underAskedPaths(problems: readonly Problem[], changes: readonly PlacedChange[]): Problem[] {
  const asked = new Map(changes.map(({ path, origin }) => [path, origin]));
  return problems.map((problem) => {
    const { path, file, line = 0 } = problem;
    if (path === undefined || asked.has(path)) return problem;
    const group = groupPath(path);
    const origin = group === null ? undefined : asked.get(group);
    return group !== null && origin?.file === file && origin?.line === line
      ? { ...problem, path: group }
      : problem;
  });
}
