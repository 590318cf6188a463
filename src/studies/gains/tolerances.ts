/**
 * What the models say of how far their numbers may lie off, drawn for a map: every sample is a set of changes, the same at every
 * point. A parameter that is an axis is what the axis says, and is not drawn.
 */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { drawnChanges } from '../spread/drawn-changes.ts';
import { modelVariables } from '../spread/model-variables.ts';
import { overlap } from '../written/overlap.ts';

export interface Tolerances {
  readonly seed: number;
  /** What is drawn, as the models say it. */
  readonly drawn: readonly (readonly [path: string, tolerance: string])[];
  /** The changes of each sample. */
  readonly samples: readonly (readonly Change[])[];
}

/** So many samples, evenly spread over each tolerance (Latin hypercube). Throws BadInput. */
export function tolerancesOf(
  base: ReadScenario,
  axes: readonly { readonly path: string }[],
  count: number,
  seed: number,
): Tolerances {
  const { drawn, variables } = modelVariables(
    base,
    'leave --samples out',
    (path) => !axes.some((axis) => overlap(axis.path, path, base.cells)),
  );
  return { seed, drawn, samples: drawnChanges(variables, count, seed) };
}
