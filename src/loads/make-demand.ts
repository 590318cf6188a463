import type { LoadSpec, Scenario } from '../scenario/scenario.ts';
import { constantDemand } from './constant.ts';
import type { Demand } from './demand.ts';
import { pulseTrainDemand } from './pulse-train.ts';
import { stepDemand } from './step.ts';

/** The demand of a scenario's load over its run. What does not fit is BadInput. */
export function makeDemand(scenario: Scenario): Demand {
  const load: LoadSpec = scenario.load;
  switch (load.kind) {
    case 'constant':
      return constantDemand(load, scenario);
    case 'step':
      return stepDemand(load, scenario);
    case 'pulse-train':
      return pulseTrainDemand(load, scenario);
    case 'recorded':
      throw new RangeError('a recorded load was not read');
    default:
      throw new RangeError(`unknown load ${(load satisfies never as LoadSpec).kind}`);
  }
}
