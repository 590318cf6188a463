import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Random } from '../random.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

/**
 * Idle at `low`; from `at` on `loading` for loading_length; then `unsteady` iterations that each rise to a random
 * level in the upper half between loading and high for half their length and fall back; then `high` by `rise`.
 */
export function startUpDemand(load: Synthetic<'start-up'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const loading = plan.ticks('loading_length', load.loading_length_s);
  const period = plan.ticks('unsteady_period', load.unsteady_period_s, 4);
  const rise = plan.ticks('rise', load.rise_s);
  const edge = plan.ticks('edge', load.edge_s);
  plan.order(load.low_W, load.loading_W, 'low', 'loading');
  plan.order(load.loading_W, load.high_W, 'loading', 'high');
  plan.want(
    edge <= loading && 2 * edge <= period,
    'edge',
    `${load.edge_s} s`,
    'at most loading_length and half of unsteady_period',
    'shorten the edge',
  );
  plan.settle();
  const random = new Random(context.seed);
  const curve = new Curve();
  curve.add(0, load.low_W);
  curve.go(at, load.loading_W, edge);
  let tick = at + loading;
  for (let k = 0; k < load.unsteady_count; k++) {
    const level = load.loading_W + (load.high_W - load.loading_W) * (0.5 + 0.5 * random.uniform());
    curve.pulse(tick, level, period >> 1, edge);
    tick += period;
  }
  curve.go(tick, load.high_W, rise);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}
