import { BadInput, type Problem } from '../base/problem.ts';
import type { LoadSpec } from '../scenario/scenario.ts';
import { declaredTicks } from './declared-ticks.ts';
import type { Demand } from './demand.ts';
import { type LoadContext, loadProblem } from './load-problem.ts';
import { makeShape, type PiecewiseShape } from './piecewise.ts';
import { profilesDemand } from './profiles-demand.ts';
import { Random } from './random.ts';
import { shiftedSleds } from './sled-shifts.ts';
import { TickRounder } from './ticks.ts';

type PulseTrain = Extract<LoadSpec, { kind: 'pulse-train' }>;

/** Jitter beyond this many standard deviations is drawn again, so that no period can lose its edges. */
const jitterBound = 4;

/**
 * Pulse train with straight edges. With period T, duty D and edge e, one period that starts at 0 is
 * low from 0, rises from (1 − D)T − e to (1 − D)T, is high up to T − e and falls until T: at t = 0 a fall has just
 * ended, and the high part lasts D·T between half heights. The mean is low + (high − low)·D.
 *
 * Sled k of n is later by spread·k/(n − 1) and by a part of `scatter` drawn for it, rounded to ticks. Jitter draws each period's length once for all
 * sleds, Gaussian about T with standard deviation `jitter_s`, D and e kept; the train then has no period, and
 * sleds that start later hold the low level until their first period. Period and edge must be whole ticks; the
 * instant (1 − D)T, shifts and jitter are rounded to ticks. Out of range: BadInput with all problems.
 */
export function pulseTrainDemand(load: PulseTrain, context: LoadContext): Demand {
  const { sleds, tick_s, duration_s } = context;
  const problems: Problem[] = [];
  const period = declaredTicks(context, 'period', load.period_s, 2, problems);
  const edge = declaredTicks(context, 'edge', load.edge_s, 1, problems);
  problems.push(...misfits(load, context));
  if (problems.length > 0) throw new BadInput(problems);
  const rounder = new TickRounder(tick_s);
  const duration_ticks = Math.round(duration_s / tick_s);
  const shape =
    load.jitter_s === 0
      ? periodicShape(load, period, edge, rounder)
      : jitteredShape(load, period, edge, rounder, context.seed, duration_ticks);

  const { profiles, profileOf } = shiftedSleds(sleds.length, shape, load, {
    seed: context.seed,
    tick_s,
    rounder,
  });
  return profilesDemand({
    profiles,
    profileOf,
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks,
    tick_s,
    period_ticks: shape.period_ticks,
    rounding_s: rounder.rounding_s,
    bandwidth_Hz: null,
  });
}

function misfits(load: PulseTrain, context: LoadContext): Problem[] {
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, mend: string) =>
    problems.push(loadProblem(context, key, { found, expected, mend }));
  const { duty_ratio: duty, edge_s, period_s, jitter_s } = load;
  if (load.low_W > load.high_W) {
    add('low', `${load.low_W} W`, `at most high, ${load.high_W} W`, 'exchange low and high');
  }
  if (!(duty > 0 && duty < 1)) {
    add(
      'duty',
      `${duty}`,
      'a share of the period above 0 and below 1',
      'write a constant load, or for example 0.7',
    );
    return problems;
  }
  const part = Math.min(duty, 1 - duty);
  // One tick of slack: the shorter part may be exactly as long as the edge.
  if (edge_s > part * period_s + 1e-9 * period_s) {
    const room = Number((part * period_s).toPrecision(6));
    add('edge', `${edge_s} s`, `at most the shorter part of the period, ${room} s`, 'shorten the edge');
  } else if (jitter_s > 0 && edge_s > part * (period_s - jitterBound * jitter_s)) {
    const most = Number(((period_s - edge_s / part) / jitterBound).toPrecision(4));
    add(
      'jitter',
      `${jitter_s} s`,
      `at most ${most} s, so that every period holds its edges`,
      'lower the jitter',
    );
  }
  if (load.spread_s < 0)
    add('spread', `${load.spread_s} s`, 'a time of 0 or more', 'write 0 s for no spread');
  if (load.scatter_s < 0)
    add('scatter', `${load.scatter_s} s`, 'a time of 0 or more', 'write 0 s for no scatter');
  if (jitter_s < 0) add('jitter', `${jitter_s} s`, 'a time of 0 or more', 'write 0 s for no jitter');
  return problems;
}

function periodicShape(load: PulseTrain, period: number, edge: number, rounder: TickRounder): PiecewiseShape {
  const top = rounder.round((1 - load.duty_ratio) * load.period_s);
  const corners = new Corners();
  // The end of the fall is the first corner of the next period.
  corners.pulse(0, top, period, edge, load.low_W, load.high_W);
  return makeShape(corners.ticks, corners.values, period);
}

function jitteredShape(
  load: PulseTrain,
  period: number,
  edge: number,
  rounder: TickRounder,
  seed: number,
  duration: number,
): PiecewiseShape {
  const random = new Random(seed);
  const corners = new Corners();
  const tick_s = load.period_s / period;
  let start = 0;
  while (start <= duration) {
    let g = random.gaussian();
    while (Math.abs(g) > jitterBound) g = random.gaussian();
    const length_s = load.period_s + load.jitter_s * g;
    const end = start + rounder.round(length_s);
    const top = rounder.round((1 - load.duty_ratio) * length_s + start * tick_s);
    corners.pulse(start, top, end, edge, load.low_W, load.high_W);
    start = end;
  }
  corners.add(start, load.low_W);
  return makeShape(corners.ticks, corners.values, null);
}

/** Corners in order; a flat part of no length leaves one corner instead of two. */
class Corners {
  readonly ticks: number[] = [];
  readonly values: number[] = [];

  add(tick: number, value: number): void {
    if (this.ticks.length > 0 && this.ticks[this.ticks.length - 1]! >= tick) return;
    this.ticks.push(tick);
    this.values.push(value);
  }

  /** Low from `start`, top reached at `top`, fall ended at `end` (not added: it starts the next pulse). */
  pulse(start: number, top: number, end: number, edge: number, low: number, high: number): void {
    this.add(start, low);
    this.add(top - edge, low);
    this.add(top, high);
    this.add(end - edge, high);
  }
}
