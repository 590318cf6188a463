import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape, Piecewise } from '../piecewise.ts';
import { Plan } from './plan.ts';
import { ofProfiles } from './sleds-apart.ts';

/**
 * A steady total whose first half of the sleds (those nearer the first section's link bars) takes `before` of it,
 * and `after` of it once the move from `at` over `edge` is done. Within a half the sleds' own shares hold.
 */
export function skewedDemand(load: Synthetic<'skewed'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const at = plan.ticks('at', load.at_s, 0);
  const edge = plan.ticks('edge', load.edge_s);
  const { sleds, tick_s } = context;
  const middle = Math.ceil(sleds.length / 2);
  plan.want(
    middle < sleds.length,
    'kind',
    `${sleds.length} sled`,
    'at least two sleds, so that there are two halves',
    'take another load',
  );
  plan.settle();
  const first = sleds.slice(0, middle).reduce((sum, sled) => sum + sled.share_ratio, 0);
  const half = (before: number, after: number, share: number): Piecewise => {
    const values = [(load.power_W * before) / share, (load.power_W * after) / share];
    return new Piecewise(makeShape([at, at + edge], values, null), 0, tick_s);
  };
  const { before_ratio, after_ratio } = load;
  const profiles = [
    half(before_ratio, after_ratio, first),
    half(1 - before_ratio, 1 - after_ratio, 1 - first),
  ];
  return ofProfiles(
    plan,
    profiles,
    Int32Array.from(sleds, (_, k) => (k < middle ? 0 : 1)),
    null,
  );
}
