import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Random } from '../random.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';
import { triangle } from './swing.ts';

/** Jitter beyond this many standard deviations is drawn again, so that every iteration holds its edges. */
const jitterBound = 4;

/**
 * Training iterations. One of length T that begins at 0 is low, rises so that half height lies at (1 − D)T − e/2, is
 * high until T − e and falls until T; `dips` short dips to dip_level × high lie evenly within the high part. `jitter`
 * draws each iteration's length (Gaussian, bounded at 4 standard deviations), `trend` moves its levels along a slow
 * triangle, the same for a whole iteration. Without both the load repeats exactly. Edges lie on whole ticks.
 */
export function trainingDemand(load: Synthetic<'training'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const { low_W, high_W, duty_ratio: duty, jitter_s, trend_ratio, dips_count: dips } = load;
  const period = plan.ticks('period', load.period_s, 4);
  const edge = plan.ticks('edge', load.edge_s);
  const dip = plan.ticks('dip_length', load.dip_length_s);
  plan.order(low_W, high_W);
  plan.want(duty > 0 && duty < 1, 'duty', `${duty}`, 'a share above 0 and below 1', 'write for example 70 %');
  const shortest_s = load.period_s - jitterBound * jitter_s;
  const part_s = Math.min(duty, 1 - duty) * shortest_s;
  plan.want(
    load.edge_s <= part_s * (1 + 1e-9),
    jitter_s > 0 ? 'jitter' : 'edge',
    `edges of ${load.edge_s} s in an iteration that may last ${short(shortest_s)} s`,
    `edges of at most the shorter part of the shortest iteration, ${short(Math.max(0, part_s))} s`,
    'shorten the edge or lower the jitter',
  );
  const room_s = (duty * shortest_s - load.edge_s) / Math.max(1, dips);
  plan.want(
    dips === 0 || (load.dip_length_s >= load.edge_s && load.dip_length_s + load.edge_s <= room_s),
    'dip_length',
    `${dips} dips of ${load.dip_length_s} s`,
    `dips of ${load.edge_s} s (the edge) to ${short(Math.max(0, room_s - load.edge_s))} s`,
    'change dips or dip_length',
  );
  plan.settle();

  const random = new Random(context.seed);
  const repeats = jitter_s === 0 && trend_ratio === 0;
  const curve = new Curve();
  let start = 0;
  do {
    const length = jitter_s === 0 ? period : drawn(plan, random, load.period_s, jitter_s);
    const level = 1 + trend_ratio * triangle((start * context.tick_s) / load.trend_period_s);
    iteration(
      curve,
      { start, length, edge, dip, dips, duty },
      low_W * level,
      high_W * level,
      load.dip_level_ratio,
    );
    start += length;
  } while (!repeats && start <= plan.end);
  if (!repeats) curve.add(start, curve.values[0]!);
  return sledsApart(plan, makeShape(curve.ticks, curve.values, repeats ? period : null), load);
}

interface Iteration {
  readonly start: number;
  readonly length: number;
  readonly edge: number;
  readonly dip: number;
  readonly dips: number;
  readonly duty: number;
}

function iteration(curve: Curve, at: Iteration, low: number, high: number, dipLevel: number): void {
  const { start, length, edge, dip, dips, duty } = at;
  const top = start + Math.round((1 - duty) * length);
  const fall = start + length - edge;
  curve.add(start, low);
  curve.add(top - edge, low);
  curve.add(top, high);
  for (let k = 1; k <= dips; k++) {
    const middle = top + Math.round(((fall - top) * (2 * k - 1)) / (2 * dips));
    const from = middle - ((dip + edge) >> 1);
    curve.add(from, high);
    curve.add(from + edge, dipLevel * high);
    curve.add(from + dip, dipLevel * high);
    curve.add(from + dip + edge, high);
  }
  curve.add(fall, high);
}

function drawn(plan: Plan, random: Random, period_s: number, jitter_s: number): number {
  let g = random.gaussian();
  while (Math.abs(g) > jitterBound) g = random.gaussian();
  return plan.rounder.round(period_s + jitter_s * g);
}

function short(time_s: number): number {
  return Number(time_s.toPrecision(4));
}
