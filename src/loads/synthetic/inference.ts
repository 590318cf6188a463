import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape, Piecewise } from '../piecewise.ts';
import { Random } from '../random.ts';
import { Curve } from './curve.ts';
import { exponential } from './exponential.ts';
import { Plan } from './plan.ts';
import { ofProfiles } from './sleds-apart.ts';
import { triangle } from './swing.ts';

/** One request: a prefill until `decode_at`, then a decode until `end` [ticks]. */
interface Request {
  readonly at: number;
  readonly decodeAt: number;
  readonly end: number;
}

/**
 * Requests by a Poisson process at each sled (`common` of them reach all sleds at once; the rest are each sled's
 * own). A sled draws the `high` level while any of its requests is in prefill, else `decode` while any is being
 * answered, else `low`. The rate swings slowly by `swell` (thinning of the process). All draws are seeded.
 */
export function inferenceDemand(load: Synthetic<'inference'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const edge = plan.ticks('edge', load.edge_s);
  plan.ticks('prefill_length', load.prefill_length_s);
  plan.ticks('decode_length', load.decode_length_s);
  plan.order(load.low_W, load.decode_W, 'low', 'decode');
  plan.order(load.decode_W, load.high_W, 'decode', 'high');
  plan.want(
    load.edge_s <= load.prefill_length_s / 2,
    'edge',
    `${load.edge_s} s`,
    `at most half of prefill_length, ${load.prefill_length_s / 2} s`,
    'shorten the edge',
  );
  plan.settle();
  const random = new Random(context.seed);
  const common = requests(plan, load, load.rate_Hz * load.common_ratio, random);
  const profiles = context.sleds.map(() => {
    const own = requests(plan, load, load.rate_Hz * (1 - load.common_ratio), random);
    const curve = levels([...common, ...own], load, edge);
    return new Piecewise(makeShape(curve.ticks, curve.values, null), 0, context.tick_s);
  });
  return ofProfiles(
    plan,
    profiles,
    Int32Array.from(profiles, (_, k) => k),
    null,
  );
}

function requests(plan: Plan, load: Synthetic<'inference'>, rate_Hz: number, random: Random): Request[] {
  const found: Request[] = [];
  if (rate_Hz === 0) return found;
  const { duration_s } = plan.context;
  const highest_Hz = rate_Hz * (1 + load.swell_ratio);
  for (
    let t = exponential(random, 1 / highest_Hz);
    t < duration_s;
    t += exponential(random, 1 / highest_Hz)
  ) {
    const now_Hz = rate_Hz * (1 + load.swell_ratio * triangle(t / load.swell_period_s));
    const kept = random.uniform() * highest_Hz < now_Hz;
    const prefill_s = load.prefill_length_s * (0.5 + random.uniform());
    const decode_s = exponential(random, load.decode_length_s);
    if (!kept) continue;
    const at = plan.rounder.round(t);
    const decodeAt = at + Math.max(1, plan.rounder.round(prefill_s));
    found.push({ at, decodeAt, end: decodeAt + Math.max(1, plan.rounder.round(decode_s)) });
  }
  return found;
}

/** The level of a sled against time, from how many of its requests are in prefill and in decode. */
function levels(all: readonly Request[], load: Synthetic<'inference'>, edge: number): Curve {
  const changes = all
    .flatMap(({ at, decodeAt, end }) => [
      { tick: at, prefill: 1, decode: 0 },
      { tick: decodeAt, prefill: -1, decode: 1 },
      { tick: end, prefill: 0, decode: -1 },
    ])
    .sort((a, b) => a.tick - b.tick);
  const curve = new Curve();
  curve.add(0, load.low_W);
  let prefill = 0;
  let decode = 0;
  for (let i = 0; i < changes.length; i++) {
    prefill += changes[i]!.prefill;
    decode += changes[i]!.decode;
    if (changes[i + 1]?.tick === changes[i]!.tick) continue;
    curve.go(changes[i]!.tick, prefill > 0 ? load.high_W : decode > 0 ? load.decode_W : load.low_W, edge);
  }
  return curve;
}
