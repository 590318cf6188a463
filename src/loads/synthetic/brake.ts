import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/** `high`, clamped to `low` from `at` within one edge, released `hold` later by an edge as long. */
export function brakeDemand(load: Synthetic<'brake'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const edge = plan.ticks('edge', load.edge_s);
  const hold = plan.ticks('hold', load.hold_s);
  plan.order(load.low_W, load.high_W);
  plan.want(edge <= hold, 'hold', `${load.hold_s} s`, `at least the edge, ${load.edge_s} s`, 'lengthen it');
  plan.settle();
  const curve = new Curve();
  curve.add(0, load.high_W);
  curve.pulse(at, load.low_W, hold, edge);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
