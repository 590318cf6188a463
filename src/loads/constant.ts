import type { LoadSpec } from '../scenario/scenario.ts';
import type { Demand } from './demand.ts';
import type { LoadContext } from './load-problem.ts';
import { oneProfile } from './one-profile.ts';
import { makeShape } from './piecewise.ts';

/** Constant demand `power_W` on every sled by its share. No kink, no period. */
export function constantDemand(load: Extract<LoadSpec, { kind: 'constant' }>, context: LoadContext): Demand {
  return oneProfile(makeShape([0], [load.power_W], null), context, 0);
}
