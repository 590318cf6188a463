import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape, Piecewise } from '../piecewise.ts';
import { Random } from '../random.ts';
import { Curve } from './curve.ts';
import { exponential } from './exponential.ts';
import { Plan } from './plan.ts';
import { ofProfiles } from './sleds-apart.ts';

/**
 * A steady level `low` with spikes to `high` by a Poisson process of `rate`. Each spike is taken by a random choice
 * of round(together × n) sleds, at least one. A spike that falls into another waits until it has ended.
 */
export function spikesDemand(load: Synthetic<'spikes'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const length = plan.ticks('length', load.length_s);
  const edge = plan.ticks('edge', load.edge_s);
  plan.order(load.low_W, load.high_W);
  plan.want(
    edge <= length,
    'edge',
    `${load.edge_s} s`,
    `at most length, ${load.length_s} s`,
    'shorten the edge',
  );
  plan.settle();
  const { sleds, seed, duration_s, tick_s } = context;
  const random = new Random(seed);
  const taking = Math.max(1, Math.round(load.together_ratio * sleds.length));
  const curves = sleds.map(() => {
    const curve = new Curve();
    curve.add(0, load.low_W);
    return curve;
  });
  for (
    let t = exponential(random, 1 / load.rate_Hz);
    t < duration_s;
    t += exponential(random, 1 / load.rate_Hz)
  ) {
    const tick = plan.rounder.round(t);
    for (const k of chosen(sleds.length, taking, random))
      curves[k]!.pulse(Math.max(tick, curves[k]!.end), load.high_W, length, edge);
  }
  const profiles = curves.map((c) => new Piecewise(makeShape(c.ticks, c.values, null), 0, tick_s));
  return ofProfiles(
    plan,
    profiles,
    Int32Array.from(profiles, (_, k) => k),
    null,
  );
}

/** `taking` of `count` places, all choices alike; draws only where there is a choice. */
function chosen(count: number, taking: number, random: Random): number[] {
  const places = Array.from({ length: count }, (_, k) => k);
  if (taking >= count) return places;
  for (let i = 0; i < taking; i++) {
    const j = i + Math.floor(random.uniform() * (count - i));
    [places[i], places[j]] = [places[j]!, places[i]!];
  }
  return places.slice(0, taking);
}
