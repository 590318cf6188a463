/**
 * What a load is there to show: from where it first moves to where it has done all that was asked of it. A run that
 * ends before, or whose judged window begins after, has not shown the load that its scenario names. Of one that goes on
 * and on and swings slowly meanwhile, the top of the swing is part of that.
 */
import { power } from '../base/power.ts';
import type { LoadSpec } from '../scenario/scenario.ts';
import { swellCrest, trendCrest } from './crest.ts';
import type { Content, Crest, Demand } from './demand.ts';

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

/** A load as the work asks for it, and as the sleds' governors let it through, which may end with the run. */
export interface LoadAsked {
  readonly asked: Demand;
  readonly drawn: Demand;
}

/** null where any stretch stands for the load: recorded (which stretch is played is said apart). */
export function contentOf(load: LoadSpec, { asked, drawn }: LoadAsked, tick_s: number): Content | null {
  const { kind } = load;
  if (drawn.period_ticks !== null) {
    return { from_tick: 0, to_tick: drawn.period_ticks, what: 'one period', repeats: true };
  }
  const round = (what: string, length_s: number, crest: Crest | null = null): Content => ({
    from_tick: 0,
    to_tick: Math.round(length_s / tick_s),
    what,
    repeats: true,
    crest,
  });
  if (kind === 'constant') return round('any moment', 0);
  if (kind === 'pulse-train') return round('one iteration', load.period_s);
  if (kind === 'training') {
    const { period_s, trend_ratio, trend_period_s } = load;
    const crest = trend_ratio > 0 ? trendCrest(period_s / tick_s, trend_period_s / tick_s) : null;
    return round('one iteration', period_s, crest);
  }
  if (kind === 'inference') {
    const { rate_Hz, swell_ratio, swell_period_s } = load;
    const crest = swell_ratio > 0 ? swellCrest(1 / rate_Hz / tick_s, swell_period_s / tick_s) : null;
    return round('the mean time between requests', 1 / rate_Hz, crest);
  }
  if (kind === 'spikes') return round('the mean time between spikes', 1 / load.rate_Hz);
  if (kind === 'sweep-square' || kind === 'sweep-sine') {
    return { ...round('the sweep', sweepLength_s(load)), repeats: false };
  }
  if (kind === 'checkpoint') {
    const to_s = load.at_s + load.length_s + load.edge_s;
    const from_tick = Math.round(load.at_s / tick_s);
    return { from_tick, to_tick: Math.round(to_s / tick_s), what: 'the first gap', repeats: false };
  }
  if (!(kind in finite)) return null;
  const [from_tick, asked_to] = ends(asked);
  if (!Number.isFinite(asked_to)) return null;
  // Ramps of a governor come after what was asked for; they end with the run, and then tell nothing.
  const [, drawn_to] = ends(drawn);
  const to_tick = Number.isFinite(drawn_to) ? Math.max(asked_to, drawn_to) : asked_to;
  return { from_tick, to_tick, what: finite[kind as keyof typeof finite], repeats: false };
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
    const frequency_Hz = steps === 1 ? from_Hz : from_Hz * power(to_Hz / from_Hz, s / (steps - 1));
    length_s += Math.max(1, Math.ceil(hold_s * frequency_Hz - 1e-9)) / frequency_Hz;
  }
  return length_s;
}
