/** What models say of how far their numbers may lie off, as variables that are drawn; refused where there is none. */
import { BadInput } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { modelTolerances } from './model-tolerances.ts';
import { type Variable, variablesOf } from './tolerance.ts';

export interface ModelVariables {
  /** What is drawn, as the models say it. */
  readonly drawn: readonly (readonly [path: string, tolerance: string])[];
  readonly variables: readonly Variable[];
}

/** Those whose path `takes` holds for. `otherwise`: how to go without them. Throws BadInput. */
export function modelVariables(
  base: ReadScenario,
  otherwise: string,
  takes: (path: string) => boolean = () => true,
): ModelVariables {
  const drawn = modelTolerances(base).filter(([path]) => takes(path));
  const refuse = (found: string): never => {
    throw new BadInput([
      {
        severity: 'error',
        path: '--samples',
        found,
        expected: 'models that say how far their numbers may lie off',
        mend: `write ranges in the models (low, high or tolerance beside a value), or ${otherwise}`,
      },
    ]);
  };
  if (drawn.length === 0) refuse('no number with a tolerance that may be drawn');
  const variables = variablesOf(drawn, base.cells, base.scenario.tick_s, (path) => refuse(`no path ${path}`));
  return { drawn, variables };
}
