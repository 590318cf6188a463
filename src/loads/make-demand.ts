import type { LoadSpec, Scenario } from '../scenario/scenario.ts';
import { isSynthetic, type SyntheticLoad } from '../scenario/synthetic-loads.ts';
import { constantDemand } from './constant.ts';
import { contentOf } from './content.ts';
import type { Demand } from './demand.ts';
import { governed } from './governor.ts';
import { pulseTrainDemand } from './pulse-train.ts';
import type { RecordedLoad } from './recorded/recorded-load.ts';
import { scaleRecorded } from './recorded/scale-recorded.ts';
import { stepDemand } from './step.ts';
import { syntheticDemand } from './synthetic/make-synthetic.ts';

/**
 * The demand of a scenario's load over its run, as the sleds' governors let it through. What does not fit is
 * BadInput; a recorded load must have been read.
 */
export function makeDemand(scenario: Scenario, recorded?: RecordedLoad): Demand {
  const demand = governed(askedFor(scenario, recorded), scenario);
  return { ...demand, content: contentOf(scenario.load, demand, scenario.tick_s) };
}

/** What the work asks for. */
function askedFor(scenario: Scenario, recorded?: RecordedLoad): Demand {
  const load: LoadSpec = scenario.load;
  if (isFamily(load)) return syntheticDemand(load, scenario);
  switch (load.kind) {
    case 'constant':
      return constantDemand(load, scenario);
    case 'step':
      return stepDemand(load, scenario);
    case 'pulse-train':
      return pulseTrainDemand(load, scenario);
    case 'recorded':
      if (recorded === undefined) throw new RangeError(`the recording ${load.file} was not read`);
      return scaleRecorded(recorded, load, scenario).demand;
    default:
      throw new RangeError(`unknown load ${(load satisfies never as LoadSpec).kind}`);
  }
}

function isFamily(load: LoadSpec): load is SyntheticLoad {
  return isSynthetic(load.kind);
}
