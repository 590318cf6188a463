/** Samples of a design for its yield: the same tolerances about the values of each design. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { drawnChanges } from '../spread/drawn-changes.ts';
import { drawnVariables } from '../spread/drawn-variables.ts';
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
  return drawnChanges(drawnVariables(study, base), samples, seed);
}
