/**
 * A load that repeats is judged on its cycle, repeated for as long as a limit asks: 0.1 Hz, ten minutes, two hours,
 * years. That the cabinet is in its cycle is measured, not believed: over the stretch that stands for the cycle the
 * trays' charge and the mean AC power must come back to where they were, and so must what a shelf bears only for a while.
 */

import { digits } from '../../base/digits.ts';
import type { Result } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import type { Demand } from '../../loads/demand.ts';
import type { Applies } from './applies.ts';
import { lowestIn } from './lowest-in.ts';
import { without } from './spans.ts';

/** Largest change of a tray's charge over the stretch, in its window; of the mean AC power between its halves. */
const charge_ratio = 5e-3;
const power_ratio = 2e-3;

/** Over ten minutes of what goes on, the time in which most parts warm up [s], a tray's charge moves by less than this. */
const longest_s = 600;
const lasting_ratio = 2e-2;

/** A stretch must be this long to stand for a load without end: two windows of the ramp over 1 s [s]. */
const least_s = 2;

export interface Cycle {
  /** The stretch that stands for the load without end: whole periods, or all of a constant load. */
  readonly span: Span;
  /** For the basis: what is repeated. */
  readonly words: string;
  /** Something started, stopped or changed in the window: what goes on need not be what was there before. */
  readonly disturbed: boolean;
}

/** What tells whether a run repeats. */
export interface Repeating {
  readonly demand: Pick<Demand, 'peak_W' | 'low_W' | 'content'>;
  readonly result: Result;
  readonly period_s: number | null;
  readonly applies: Applies;
}

/** The cycle of the run, or why there is none to be repeated. */
export function cycleOf(c: Repeating): Cycle | string {
  const { applies, period_s, result } = c;
  const span = lastRounds(c);
  if (typeof span === 'string') return span;
  const { from_s, to_s } = span;
  const spent = spentIn(result, { from_s: Math.max(from_s, to_s - (period_s ?? to_s)), to_s });
  if (spent !== null) return `not in its cycle: ${spent} still counts up what it bears only for a while`;
  const disturbed = applies.starts.length > 0 || busyOf(result).length > 0;
  if (period_s === null) {
    const words = `${round(to_s - from_s)} s of a constant load`;
    return movedIn(c, span, (to_s - from_s) / 2) ?? { span, words, disturbed };
  }
  const periods = Math.round((to_s - from_s) / period_s);
  const words = `${periods} ${periods === 1 ? 'period' : 'periods'} of ${round(period_s)} s`;
  if (periods < 2) {
    return result.counters.cycles_to_converge !== null && !disturbed
      ? { span, words, disturbed }
      : `one period alone does not show that it repeats`;
  }
  return movedIn(c, span, Math.floor(periods / 2) * period_s) ?? { span, words, disturbed };
}

/**
 * What goes on at the end of the run: the last whole periods, or the last of a constant load, clear of every
 * disturbance, whether the cabinet is in its cycle there or not. In words why there is none.
 */
export function lastRounds({ demand, applies, period_s, result }: Repeating): Span | string {
  // A load at random that has not moved yet is none that stays.
  const isConstant = demand.content?.repeats === true && demand.peak_W === demand.low_W;
  if (period_s === null && !isConstant) return 'the load does not repeat';
  const disturbed = [...applies.starts, ...applies.lost, ...applies.walkIn, ...busyOf(result)];
  // The last state is what goes on; what was clear before it is over.
  const clear = without(result.window, disturbed).at(-1) ?? null;
  if (clear === null || clear.to_s < result.window.to_s) {
    return 'the window does not end 10 s clear of every start, stop and event';
  }
  const length_s = clear.to_s - clear.from_s;
  if (period_s === null) {
    const isLong = length_s >= least_s * (1 - 1e-9);
    return isLong ? clear : `only ${round(length_s)} s of a constant load were run`;
  }
  const periods = Math.floor(length_s / period_s + 1e-6);
  if (periods < 1)
    return `the last clear stretch, ${round(length_s)} s, holds no period of ${round(period_s)} s`;
  if (periods * period_s < least_s * (1 - 1e-9)) {
    return `only ${round(periods * period_s)} s of whole periods were run; ${least_s} s are the least`;
  }
  // What came before the last whole periods may still have been on its way into the cycle.
  return { from_s: clear.to_s - periods * period_s, to_s: clear.to_s };
}

/** Batteries at work: what they take or give does not go on for ever. */
function busyOf({ spans }: Result): Span[] {
  return spans.filter(({ kind }) => kind === 'charging' || kind === 'carrying');
}

/**
 * A shelf whose count was at no time back at nothing in one round of the load; null where all were. Spans that were
 * joined began anew time and again.
 */
function spentIn({ spans }: Result, { from_s, to_s }: Span): string | null {
  const counts = spans.filter(({ kind, count }) => kind === 'counting' && count === 1);
  return counts.find((span) => span.from_s <= from_s && span.to_s >= to_s)?.who ?? null;
}

/** What has not come back between the first and the last `part_s` of the stretch; null where all has. */
function movedIn({ result }: Repeating, { from_s, to_s }: Span, part_s: number): string | null {
  const first = { from_s, to_s: from_s + part_s };
  const last = { from_s: to_s - part_s, to_s };
  let most = { owner: '', drift: 0 };
  result.recording.channels.forEach(({ kind, owner }, index) => {
    if (kind !== 'tray-charge') return;
    const before = lowestIn(result.recording, index, first);
    const after = lowestIn(result.recording, index, last);
    const drift = before === null || after === null ? 0 : Math.abs(after - before);
    if (drift > most.drift) most = { owner, drift };
  });
  if (most.drift > charge_ratio) {
    const percent = (100 * most.drift).toFixed(2);
    return `not in its cycle: the charge of ${most.owner} moves by ${percent} % of its window in ${round(to_s - from_s)} s`;
  }
  const lasting = lastingDrift(result, { from_s, to_s }, part_s);
  if (lasting !== null) return lasting;
  const { columns, from_s: at_s, width_s } = result.means;
  const power = columns.get('total.ac_power_W');
  if (power === undefined) return 'no AC power was recorded';
  const before = meanIn(power, at_s, width_s, first);
  const after = meanIn(power, at_s, width_s, last);
  const moved = Math.abs(after - before) / Math.max(Math.abs(after), Math.abs(before));
  return moved > power_ratio
    ? `not in its cycle: the mean AC power moves by ${(100 * moved).toFixed(2)} % in ${round(to_s - from_s)} s`
    : null;
}

/**
 * A tray whose charge would move by more than `lasting_ratio` if it went on as it does: what is left of a move that
 * shrinks from one part of the stretch to the next adds up as a geometric row; one that does not slow down goes on at
 * its rate. null where none would.
 */
function lastingDrift({ recording }: Result, { from_s, to_s }: Span, part_s: number): string | null {
  // Three parts that overlap: any stretch of whole rounds has the lowest charge of its rounds.
  const length_s = to_s - from_s;
  const middle_s = from_s + (length_s - part_s) / 2;
  let most = { owner: '', drift: 0 };
  recording.channels.forEach(({ kind, owner }, index) => {
    if (kind !== 'tray-charge') return;
    const [first, middle, last] = [from_s, middle_s, to_s - part_s].map((at_s) =>
      lowestIn(recording, index, { from_s: at_s, to_s: at_s + part_s }),
    );
    if (first == null || middle == null || last == null) return;
    const before = Math.abs(middle - first);
    const now = Math.abs(last - middle);
    const rate_per_s = now / ((length_s - part_s) / 2);
    const atRate = rate_per_s * longest_s;
    const drift = now < before ? Math.min(atRate, (now * now) / (before - now)) : atRate;
    if (drift > most.drift) most = { owner, drift };
  });
  if (most.drift <= lasting_ratio) return null;
  const percent = digits(100 * most.drift);
  return `not in its cycle: if it goes on like this the charge of ${most.owner} moves by another ${percent} % of its window`;
}

/** Mean of the values (one per width_s from at_s) over a stretch, those it cuts counted by their part. */
function meanIn(values: Float64Array, at_s: number, width_s: number, { from_s, to_s }: Span): number {
  const from = Math.max(0, (from_s - at_s) / width_s);
  const to = Math.min(values.length, (to_s - at_s) / width_s);
  let sum = 0;
  for (let j = Math.floor(from); j < to; j++) {
    sum += values[j]! * (Math.min(j + 1, to) - Math.max(j, from));
  }
  return sum / (to - from);
}

function round(x: number): string {
  return String(Number(x.toPrecision(4)));
}
