/** Samples of a design for its yield: the same tolerances about the values of each design. */
import { BadInput } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { drawnVariables } from '../spread/drawn-variables.ts';
import { Sampler } from '../spread/sampling.ts';
import { drawnAt, outOfRange } from '../spread/tolerance.ts';
import type { StudyFile } from '../written/study-file.ts';

export interface YieldAsked {
  readonly samples: number;
  readonly seed: number;
}

/** Changes of each sample. `base`: the design as read. Throws BadInput where a draw cannot be. */
export function drawsOf(
  study: StudyFile,
  { samples, seed }: YieldAsked,
  base: ReadScenario,
): readonly (readonly Change[])[] {
  const variables = drawnVariables(study, base);
  const sampler = new Sampler('latin-hypercube', samples, variables.length, seed);
  const rows = Array.from({ length: samples }, (_, k) => sampler.row(k));
  const impossible = outOfRange(variables, rows);
  if (impossible.length > 0) throw new BadInput(impossible);
  return rows.map((row) => variables.flatMap((variable, j) => drawnAt(variable, row[j]!)));
}
