/**
 * What a load is there to show: from where it first moves to where it has done all that was asked of it. A run that
 * ends before, or whose judged window begins after, has not shown the load that its scenario names.
 */
import type { LoadSpec } from '../scenario/scenario.ts';
import type { Demand } from './demand.ts';

export interface Content {
  readonly from_tick: number;
  readonly to_tick: number;
  /** What lies there, for messages: `the step`, `the ladder`. */
  readonly what: string;
  /** It comes again and again: any stretch as long as this shows it. */
  readonly repeats: boolean;
}

/** Loads that do one thing and are done; the others go on for as long as they are run. */
const finite = {
  step: 'the step',
  'start-up': 'the start',
  abort: 'the abort and restart',
  floor: 'the burn',
  ladder: 'the ladder',
  skewed: 'the move between the halves',
  brake: 'the clamp',
} as const satisfies Partial<Record<LoadSpec['kind'], string>>;

/** null where any stretch stands for the load: constant, at random, recorded (which stretch is played is said apart). */
export function contentOf(load: LoadSpec, demand: Demand, tick_s: number): Content | null {
  const { kind } = load;
  if (demand.period_ticks !== null) {
    return { from_tick: 0, to_tick: demand.period_ticks, what: 'one period', repeats: true };
  }
  if (kind === 'sweep-square' || kind === 'sweep-sine') {
    const to_tick = Math.round(sweepLength_s(load) / tick_s);
    return { from_tick: 0, to_tick, what: 'the sweep', repeats: false };
  }
  if (kind === 'checkpoint') {
    const to_s = load.at_s + load.length_s + load.edge_s;
    const from_tick = Math.round(load.at_s / tick_s);
    return { from_tick, to_tick: Math.round(to_s / tick_s), what: 'the first gap', repeats: false };
  }
  if (!(kind in finite)) return null;
  const [from_tick, to_tick] = ends(demand);
  return Number.isFinite(to_tick)
    ? { from_tick, to_tick, what: finite[kind as keyof typeof finite], repeats: false }
    : null;
}

/** First and last kink; not finite where the load never moves. */
function ends(demand: Demand): [number, number] {
  const first = demand.nextKink(-1);
  let last = first;
  for (let tick = first; Number.isFinite(tick); tick = demand.nextKink(tick)) last = tick;
  return [first, last];
}

/** Whole periods at every frequency, at least `hold` each. */
function sweepLength_s({
  from_Hz,
  to_Hz,
  steps_count: steps,
  hold_s,
}: Extract<LoadSpec, { kind: 'sweep-square' | 'sweep-sine' }>): number {
  let length_s = 0;
  for (let s = 0; s < steps; s++) {
    const frequency_Hz = steps === 1 ? from_Hz : from_Hz * (to_Hz / from_Hz) ** (s / (steps - 1));
    length_s += Math.max(1, Math.ceil(hold_s * frequency_Hz - 1e-9)) / frequency_Hz;
  }
  return length_s;
}
