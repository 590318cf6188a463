/** What a change must state so that a part ends as it is: the part's state, hot or cold or aged, comes on top of what is written. */
import type { ReadScenario } from '../../scenario/read.ts';

export type Cells = ReadScenario['cells'];

interface Standing {
  readonly value: number;
  readonly written: number;
}

/** Null where no state came on top. */
function standing(cells: Cells, path: string): Standing | null {
  const cell = cells.get(path);
  if (typeof cell?.value !== 'number' || typeof cell.written !== 'number') return null;
  return { value: cell.value, written: cell.written };
}

/** A number that a state multiplies. */
export function statedFor(cells: Cells, path: string, wanted: number): number {
  const found = standing(cells, path);
  return found === null || found.value === 0 ? wanted : (wanted * found.written) / found.value;
}

/** One temperature for several parts that a state moves, each by its own: their mean ends at the wanted one. */
export function statedTemperature(cells: Cells, paths: readonly string[], wanted_degC: number): number {
  const moved_K = paths.map((path) => {
    const found = standing(cells, path);
    return found === null ? 0 : found.value - found.written;
  });
  return wanted_degC - moved_K.reduce((sum, one) => sum + one, 0) / paths.length;
}
