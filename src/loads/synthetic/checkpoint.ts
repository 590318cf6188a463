import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/** Work at `high` with gaps to `low` that begin at `at` and every `every` after it; both edges equally sharp. */
export function checkpointDemand(load: Synthetic<'checkpoint'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const length = plan.ticks('length', load.length_s);
  const every = plan.ticks('every', load.every_s);
  const edge = plan.ticks('edge', load.edge_s);
  plan.order(load.low_W, load.high_W);
  plan.want(
    edge <= length && length + edge <= every,
    'length',
    `gaps of ${load.length_s} s every ${load.every_s} s with edges of ${load.edge_s} s`,
    'gaps at least as long as the edge, that end before the next begins',
    'change length, every or edge',
  );
  plan.settle();
  const curve = new Curve();
  curve.add(0, load.high_W);
  for (let tick = at; tick <= plan.end; tick += every) curve.pulse(tick, load.low_W, length, edge);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
