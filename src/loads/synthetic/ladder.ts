import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/** From `low` to `high` in `steps` equal steps, each level held for `hold` from edge to edge, and down again. */
export function ladderDemand(load: Synthetic<'ladder'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const hold = plan.ticks('hold', load.hold_s);
  const edge = plan.ticks('edge', load.edge_s);
  plan.order(load.low_W, load.high_W);
  plan.want(edge <= hold, 'edge', `${load.edge_s} s`, `at most hold, ${load.hold_s} s`, 'shorten the edge');
  plan.settle();
  const { low_W, high_W, steps_count: steps } = load;
  const curve = new Curve();
  curve.add(0, low_W);
  for (let k = 1; k <= 2 * steps; k++) {
    const step = k <= steps ? k : 2 * steps - k;
    curve.go(k * hold, low_W + ((high_W - low_W) * step) / steps, edge);
  }
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
