import { BadInput, type Problem } from '../base/problem.ts';
import type { LoadSpec } from '../scenario/scenario.ts';
import { declaredTicks } from './declared-ticks.ts';
import type { Demand } from './demand.ts';
import type { LoadContext } from './load-problem.ts';
import { oneProfile } from './one-profile.ts';
import { makeShape } from './piecewise.ts';

/**
 * One step: `before_W` up to `at_s`, a straight edge of `edge_s`, then `after_W`. The edge starts at `at_s`.
 * Both times are whole ticks and the edge lasts at least one, or BadInput.
 */
export function stepDemand(load: Extract<LoadSpec, { kind: 'step' }>, context: LoadContext): Demand {
  const problems: Problem[] = [];
  const at = declaredTicks(context, 'at', load.at_s, 0, problems);
  const edge = declaredTicks(context, 'edge', load.edge_s, 1, problems);
  if (problems.length > 0) throw new BadInput(problems);
  return oneProfile(makeShape([at, at + edge], [load.before_W, load.after_W], null), context, 0);
}
