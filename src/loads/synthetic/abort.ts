import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/** Work at `high`, aborted at `at` within one edge; after `pause` (from the abort) back to `high` by `rise`. */
export function abortDemand(load: Synthetic<'abort'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const edge = plan.ticks('edge', load.edge_s);
  const pause = plan.ticks('pause', load.pause_s);
  const rise = plan.ticks('rise', load.rise_s);
  plan.order(load.low_W, load.high_W);
  plan.want(
    edge <= pause,
    'pause',
    `${load.pause_s} s`,
    `at least the edge, ${load.edge_s} s`,
    'lengthen it',
  );
  plan.settle();
  const curve = new Curve();
  curve.add(0, load.high_W);
  curve.go(at, load.low_W, edge);
  curve.go(at + pause, load.high_W, rise);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
