/**
 * A look at the linear model of the cabinet at the points where a run rests: does a mode grow, or is it nearly
 * undamped, and whose is it? Cheap enough to go with every run: all modes of the plant, and of the firmware's loops
 * those that hardly decay, each group of tasks of like rate by itself with the commands of the others held.
 *
 * Loops slower than 0.05 Hz are not looked at (`response` shows them), and no drift: a mode that does not swing and is
 * slower than 100 s, grow or decay, or than packs that carry take to empty, is where charge, trims and stores stand. What
 * swings is looked at however slowly it grows.
 */

import { digits } from '../base/digits.ts';
import { BadInput } from '../base/problem.ts';
import type { Result } from '../engine/result.ts';
import { fastCapacitance_F } from '../scenario/derived/slow-branch.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Complex } from './complex.ts';
import { DecidingModes } from './deciding-modes.ts';
import { emptying_per_s } from './emptying.ts';
import { highest_Hz, type Mode, modeAt, modesOf } from './modes.ts';
import type { Owner } from './owners.ts';
import { restAt } from './rest.ts';
import { type RestingPoint, restingPoints } from './resting-points.ts';
import { innerTasks, linearise, type Sampled } from './sampled.ts';
import { type DecidingMode, notLooked, type PointLookedAt, type Stability } from './stability.ts';
import { withSignals } from './with-signals.ts';

/** Growth slower than this without a swing is drift [1/s]. */
const drift_per_s = 0.01;

/** A mode swings from here on; slower loops are not looked at [rad/s]. */
const slowestSwing_rad_per_s = 0.3;

/** Below this damping ratio the owners of the worst mode are named; that takes the slower analysis. */
const named_ratio = 0.05;

/** Above so many states the eigenvalues cost more than the run. */
const most_states = 900;

/** Above so many elements, samples on their way included, a map costs more than the run. */
const most_elements = 4000;

/** Points looked at in one run. */
const most_points = 12;

/** Step of the trapezoid behind the firmware's modes: they lie far below it, and the plant's do not use it [s]. */
const step_s = 62.5e-6;

/** A mode nearly undamped decays to no less than exp(−0.07) between samplings: what is below 0.9 need not be found. */
const bases = {
  whole: { depth: 16, least: 0.9, asked: swingsOrGrows },
  fast: { depth: 32, least: 0.9, asked: swingsOrGrows },
} as const;

/** What decays without a swing is not asked for: filters and slow stores crowd about 1 and need a deep basis. */
function swingsOrGrows({ re, im }: Complex): boolean {
  return im !== 0 || re > 1 || re < 0;
}

export function look(scenario: Scenario, result: Result): Stability {
  if (result.status !== 'ok') return notLooked('the run did not reach its end with its numbers in order');
  const all = restingPoints(scenario, result);
  if (all.length === 0) return notLooked('the run rests nowhere for 50 ms between what happens');
  const chosen = choose(all);
  const search = new DecidingModes(bases, 'apart');
  const points: PointLookedAt[] = [];
  const not_looked: string[] = [];
  let worst: { readonly at: number; readonly mode: DecidingMode | null; readonly system: Sampled } | null =
    null;
  for (const point of chosen) {
    const { load_W, from_s, standing } = point;
    const { carrying, stopped } = standing;
    try {
      const system = systemAt(scenario, point);
      const mode = decidingMode(system, search, Math.max(drift_per_s, givingAway_per_s(scenario, point)));
      points.push({ load_W, from_s, carrying, stopped, mode });
      if (worst === null || damping(mode) < damping(worst.mode))
        worst = { at: points.length - 1, mode, system };
    } catch (fault) {
      if (!(fault instanceof BadInput)) throw fault;
      const why = fault.problems.map(({ found }) => found).join('; ');
      not_looked.push(`${(load_W / 1e3).toFixed(1)} kW from ${digits(from_s, 4)} s: ${why}`);
    }
  }
  if (all.length > chosen.length) {
    not_looked.push(`${all.length - chosen.length} more points: ${most_points} are looked at`);
  }
  if (worst === null) return { points, worst, not_looked };
  const { at, mode, system } = worst;
  if (mode !== null && mode.damping_ratio < named_ratio) {
    points[at] = { ...points[at]!, mode: { ...mode, owners: ownersAt(system, mode) } };
  }
  return { points, worst: points[at]!, not_looked };
}

function damping(mode: DecidingMode | null): number {
  return mode?.damping_ratio ?? Number.POSITIVE_INFINITY;
}

/** Those where batteries carry first, then where the run came to last: what happened before it was the scenario's own. */
function choose(all: readonly RestingPoint[]): RestingPoint[] {
  const first = all.slice(0, 2);
  const later = all.slice(2).reverse();
  const carrying = later.filter(({ standing }) => standing.carrying.length > 0);
  return [...new Set([...first, ...carrying, ...later])].slice(0, most_points);
}

/** The cabinet at a point, linear. Throws BadInput where it cannot be settled there or is too large. */
function systemAt(scenario: Scenario, { load_W, smoothed_W, standing }: RestingPoint): Sampled {
  const cabinet = restAt(withSignals(scenario, standing.events), load_W, { standing, smoothed_W });
  const { stateCount } = cabinet.network;
  if (stateCount > most_states) {
    throw new BadInput([
      {
        severity: 'error',
        path: 'linear',
        found: `a cabinet of ${stateCount} states`,
        expected: `at most ${most_states}`,
        mend: 'look with buswake response',
      },
    ]);
  }
  const system = linearise(cabinet);
  if (system.size > most_elements) {
    throw new BadInput([
      {
        severity: 'error',
        path: 'linear',
        found: `a linear model of ${system.size} elements, most of them samples on their way`,
        expected: `at most ${most_elements}`,
        mend: 'signals whose latency is fewer of their periods',
      },
    ]);
  }
  return system;
}

/** How fast stores give away their charge (emptying.ts) [1/s]; of a tray held at its power limit P: P/(η C v²), most at its lowest voltage. */
function givingAway_per_s(scenario: Scenario, { load_W, standing }: RestingPoint): number {
  const trays = scenario.trays.map(
    ({ values }) =>
      values.power_limit_W /
      (values.efficiency_ratio * fastCapacitance_F(values) * values.voltage_low_V * values.voltage_low_V),
  );
  return Math.max(emptying_per_s(scenario, load_W, standing.carrying), ...trays);
}

/** The least damped mode that swings, or one that grows faster than drift does. */
function decidingMode(exact: Sampled, search: DecidingModes, drift_per_s: number): DecidingMode | null {
  // The modes of inner loops are as fast as the plant's: theirs is the exact rung.
  const isCoarse = innerTasks(exact).length === 0;
  const system = isCoarse ? { ...exact, rungTicks: Math.max(1, Math.round(step_s / exact.tick_s)) } : exact;
  let worst: DecidingMode | null = null;
  for (const s of search.of(system).modes) {
    const decays = s.re < 0;
    const swings = Math.abs(s.im) >= slowestSwing_rad_per_s;
    if (!swings && s.re < drift_per_s) continue;
    const { frequency_Hz, damping_ratio } = modeAt(s, 1, false, []);
    // What grows beyond the model is told all the same.
    if (decays && frequency_Hz > highest_Hz) continue;
    if (damping_ratio < damping(worst))
      worst = { frequency_Hz, damping_ratio, growth_per_s: s.re, owners: [] };
  }
  return worst;
}

/** Owners of the mode nearest to this one, from the whole period map. */
function ownersAt(system: Sampled, { growth_per_s, frequency_Hz }: DecidingMode): readonly Owner[] {
  const far = (mode: Mode): number =>
    Math.hypot(mode.real_per_s - growth_per_s, 2 * Math.PI * (mode.frequency_Hz - frequency_Hz));
  // What is faster than any averaged model is left out by default; here the mode itself sets the end.
  const modes = modesOf(system, {
    highest_Hz: Math.max(highest_Hz, 2 * frequency_Hz),
    near_per_s: growth_per_s,
  });
  return modes.reduce<Mode | null>((a, b) => (a === null || far(b) < far(a) ? b : a), null)?.owners ?? [];
}
