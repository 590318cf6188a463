import { power } from '../../base/power.ts';
import { cosine, sine } from '../../base/sine.ts';
import type { Synthetic } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { makeShape } from '../piecewise.ts';
import { Curve } from './curve.ts';
import { Plan } from './plan.ts';
import { sledsApart } from './sleds-apart.ts';

type Sweep = Synthetic<'sweep-square'> | Synthetic<'sweep-sine'>;

/** Half periods from `low` to `high` and back, the frequency stepped from `from` to `to` in equal ratios. */
export function squareSweepDemand(load: Synthetic<'sweep-square'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  const edge = plan.ticks('edge', load.edge_s);
  checkSweep(plan, load);
  const fastest_s = 0.5 / Math.max(load.from_Hz, load.to_Hz);
  plan.want(
    load.edge_s <= fastest_s * (1 + 1e-9),
    'edge',
    `${load.edge_s} s`,
    `at most half a period of the highest frequency, ${fastest_s} s`,
    'shorten the edge',
  );
  plan.settle();
  const curve = new Curve();
  curve.add(0, load.low_W);
  eachPeriod(plan, load, (start, period) => {
    curve.go(start + Math.round(period / 2) - edge, load.high_W, edge);
    curve.go(start + period - edge, load.low_W, edge);
  });
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}

/**
 * A sine about (low + high)/2, by the corners of a polygon on it: `pieces` a period. Between corners the polygon
 * lies inside the sine by at most 1 − cos(π/pieces) of the amplitude: 0.5 % for 32, 0.12 % for 64.
 */
export function sineSweepDemand(load: Synthetic<'sweep-sine'>, context: LoadContext): Demand {
  const plan = new Plan(context);
  checkSweep(plan, load);
  const fastest = 1 / Math.max(load.from_Hz, load.to_Hz) / context.tick_s;
  plan.want(
    fastest >= 4 * load.pieces_count,
    'pieces',
    `${load.pieces_count} pieces of a period of ${fastest} ticks`,
    'at least four ticks for each piece',
    'lower pieces or the highest frequency',
  );
  plan.settle();
  const n = load.pieces_count;
  const mean_W = 0.5 * (load.low_W + load.high_W);
  const half_W = 0.5 * (load.high_W - load.low_W);
  const curve = new Curve();
  curve.add(0, mean_W);
  eachPeriod(plan, load, (start, period) => {
    for (let k = 1; k <= n; k++) {
      const height = k === n || 2 * k === n ? 0 : sine((2 * Math.PI * k) / n);
      curve.add(start + Math.round((period * k) / n), mean_W + half_W * height);
    }
  });
  return sledsApart(plan, makeShape(curve.ticks, curve.values, null), load);
}

/** Largest distance between the sine and its polygon, over the amplitude. */
export function polygonError(pieces: number): number {
  return 1 - cosine(Math.PI / pieces);
}

function checkSweep(plan: Plan, load: Sweep): void {
  plan.ticks('hold', load.hold_s);
  plan.order(load.low_W, load.high_W);
}

/** Calls `draw` for every period of the sweep that begins within the run; periods are rounded to ticks. */
function eachPeriod(plan: Plan, load: Sweep, draw: (start: number, period: number) => void): void {
  const { from_Hz, to_Hz, steps_count: steps, hold_s } = load;
  let start = 0;
  for (let s = 0; s < steps && start <= plan.end; s++) {
    const frequency_Hz = steps === 1 ? from_Hz : from_Hz * power(to_Hz / from_Hz, s / (steps - 1));
    const period = Math.max(2, plan.rounder.round(1 / frequency_Hz));
    // Decimal lengths may miss a whole number of periods in the last place.
    const periods = Math.max(1, Math.ceil(hold_s * frequency_Hz - 1e-9));
    for (let k = 0; k < periods && start <= plan.end; k++) {
      draw(start, period);
      start += period;
    }
  }
}
