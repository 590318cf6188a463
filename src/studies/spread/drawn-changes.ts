/** Samples of variables as changes, spread evenly over each (Latin hypercube): what a study of designs or gains plays each point with. */
import { BadInput } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import { Sampler } from './sampling.ts';
import { drawnAt, outOfRange, type Variable } from './tolerance.ts';

/** The changes of each sample. Throws BadInput where a draw cannot be. */
export function drawnChanges(
  variables: readonly Variable[],
  samples: number,
  seed: number,
): readonly (readonly Change[])[] {
  const sampler = new Sampler('latin-hypercube', samples, variables.length, seed);
  const rows = Array.from({ length: samples }, (_, k) => sampler.row(k));
  const impossible = outOfRange(variables, rows);
  if (impossible.length > 0) throw new BadInput(impossible);
  return rows.map((row) => variables.flatMap((variable, j) => drawnAt(variable, row[j]!)));
}
