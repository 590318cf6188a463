import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/**
 * `low`, a straight rise from `at` to the floor `high`, held for `hold` with a triangular ripple (peak to peak
 * ripple × high, mean high, whole periods only), a straight fall back to `low`.
 */
export function floorDemand(load: Synthetic<'floor'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const rise = plan.ticks('rise', load.rise_s);
  const hold = plan.ticks('hold', load.hold_s);
  const fall = plan.ticks('fall', load.fall_s);
  const period = plan.ticks('ripple_period', load.ripple_period_s, 4);
  plan.order(load.low_W, load.high_W);
  plan.settle();
  const { low_W, high_W } = load;
  const half_W = 0.5 * load.ripple_ratio * high_W;
  const curve = new Curve();
  curve.add(0, low_W);
  curve.add(at, low_W);
  const top = at + rise;
  curve.add(top, high_W);
  if (half_W > 0) {
    const last = Math.min(top + hold, plan.end + period);
    for (let tick = top; tick + period <= last; tick += period) {
      curve.add(tick + Math.round(period / 4), high_W + half_W);
      curve.add(tick + Math.round((3 * period) / 4), high_W - half_W);
      curve.add(tick + period, high_W);
    }
  }
  curve.add(top + hold, high_W);
  curve.add(top + hold + fall, low_W);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
