/**
 * One point of a gains map: whether the cabinet is stable there, how well damped, how far from the edge, how
 * fast and how true the shelves share. Only the modes that decide are computed (linear/deciding-modes.ts).
 */

import { type Complex, magnitude } from '../../linear/complex.ts';
import { DecidingModes } from '../../linear/deciding-modes.ts';
import { emptying_per_s } from '../../linear/emptying.ts';
import { standingAfter } from '../../linear/lasting.ts';
import { highest_Hz } from '../../linear/modes.ts';
import { restAt, restUnder } from '../../linear/rest.ts';
import { linearise } from '../../linear/sampled.ts';
import { asBuilt, type Standing } from '../../linear/standing.ts';
import { withSignals } from '../../linear/with-signals.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { empties, isBelow1kHz, isJudged, leastDamping, neutral_per_s } from '../damping.ts';
import { stateOf } from '../response/settled.ts';
import { underConstant } from '../settled-load.ts';
import { type ShareStep, shareStep } from './share-step.ts';

export interface GainsCell extends ShareStep {
  readonly stable: boolean;
  /** Largest real part of any mode, and the frequency of that mode. */
  readonly growth_per_s: number | null;
  readonly growth_Hz: number | null;
  /** Least damping of a mode below 1 kHz, and from 1 to 10 kHz, with their frequencies. */
  readonly damping_ratio: number | null;
  readonly damping_Hz: number | null;
  readonly damping_fast_ratio: number | null;
  readonly damping_fast_Hz: number | null;
  /** Largest deviation of a shelf from the mean at rest, dead band on, over rated; null where no shelf runs. */
  readonly steady_error_ratio: number | null;
  /** Why there are no numbers: no operating point, no common multiple of the periods. */
  readonly reason: string | null;
}

/** Basis sizes of the two maps, and the value below which theirs need not have settled. */
const bases = { whole: { depth: 48, least: 0.35 }, fast: { depth: 90, least: 0.3 } } as const;

/** Keeps what neighbouring cells have in common: a plant that did not change is not multiplied out again. */
export class CellWorkshop {
  private readonly search = new DecidingModes(bases);

  get reused(): number {
    return this.search.reused;
  }

  /** `state_count`: how many of the events at 0 s, the last ones, have come to stay. */
  cell(asked: Scenario, load_W: number, state_count = 0): GainsCell {
    const standing = standingAfter(asked, stateOf(asked, state_count));
    const scenario = withSignals(asked, standing.events);
    const { modes: all, map } = this.search.of(linearise(restAt(scenario, load_W, { standing })));
    const emptying = emptying_per_s(scenario, load_W, standing.carrying);
    const modes = all.filter(({ re, im }) => !empties({ real_per_s: re, frequency_Hz: im }, emptying));
    const step = map !== null && modes.every(({ re }) => re <= neutral_per_s) ? shareStep(map) : nothing;
    return { ...verdictOf(modes), ...step, steady_error_ratio: steadyError(scenario, load_W, standing) };
  }
}

const nothing: ShareStep = {
  settling_s: null,
  overshoot_ratio: null,
  clearance_ratio: null,
  leaves_ratio: null,
};

/** A cell without numbers, and why. */
export function empty(reason: string): GainsCell {
  return {
    stable: false,
    growth_per_s: null,
    growth_Hz: null,
    damping_ratio: null,
    damping_Hz: null,
    damping_fast_ratio: null,
    damping_fast_Hz: null,
    ...nothing,
    steady_error_ratio: null,
    reason,
  };
}

function verdictOf(modes: readonly Complex[]): Omit<GainsCell, keyof ShareStep | 'steady_error_ratio'> {
  let growth: Complex = { re: Number.NEGATIVE_INFINITY, im: 0 };
  let slow: Complex | null = null;
  let fast: Complex | null = null;
  const damping = (s: Complex): number => -s.re / magnitude(s);
  for (const s of modes) {
    if (s.re > growth.re) growth = s;
    const f = Math.abs(s.im) / (2 * Math.PI);
    if (s.im === 0 || f > highest_Hz || (!isJudged(f) && damping(s) >= leastDamping.beyond_ratio)) continue;
    if (isBelow1kHz(f)) {
      if (slow === null || damping(s) < damping(slow)) slow = s;
    } else if (fast === null || damping(s) < damping(fast)) fast = s;
  }
  const hertz = (s: Complex | null): number | null => (s === null ? null : Math.abs(s.im) / (2 * Math.PI));
  return {
    stable: growth.re <= neutral_per_s,
    growth_per_s: growth.re,
    growth_Hz: hertz(growth),
    damping_ratio: slow === null ? 1 : damping(slow),
    damping_Hz: hertz(slow),
    damping_fast_ratio: fast === null ? 1 : damping(fast),
    damping_fast_Hz: hertz(fast),
    reason: null,
  };
}

/** Settles the scenario as it is, dead band on, and reads how unevenly the shelves carry; null where none runs. */
export function steadyError(scenario: Scenario, load_W: number, standing: Standing = asBuilt): number | null {
  const { network, stepper } = restUnder(underConstant(scenario, load_W), load_W, { standing });
  const { stages, shelfCount } = network;
  const y: number[] = [];
  for (let k = 0; k < shelfCount; k++) {
    if (stages.running[k]) y.push(stages.perUnit(k, stepper.x0));
  }
  if (y.length === 0) return null;
  const mean = y.reduce((sum, value) => sum + value, 0) / y.length;
  return Math.max(...y.map((value) => Math.abs(value - mean)));
}
