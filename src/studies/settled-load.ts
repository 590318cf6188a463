import { BadInput } from '../base/problem.ts';
import { hardestLoad_W } from '../linear/rest.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** About the settled point under a constant load. */
export interface AtLoad {
  readonly load_W: number;
}

/** The load of the settled point: asked for, or the highest steady load of the scenario [W]. Throws BadInput. */
export function settledLoad_W(scenario: Scenario, asked_W: number | null): number {
  const load = asked_W ?? hardestLoad_W(scenario);
  if (load !== null) return load;
  throw new BadInput([
    {
      severity: 'error',
      path: 'load',
      found: 'a load without one steady level to settle at',
      expected: 'the load of the settled point',
      mend: 'give --at "200 kW"',
    },
  ]);
}

/** The scenario under that load from the beginning, and nothing happening. */
export function underConstant(scenario: Scenario, load_W: number): Scenario {
  return { ...scenario, load: { kind: 'constant', power_W: load_W }, start: 'settled', events: [] };
}
