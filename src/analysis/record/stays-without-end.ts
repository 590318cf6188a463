/**
 * Stays with what lies before the judged window and behind it, where that is known. A stay that the window cuts is longer than
 * what is left of it there: where a load goes on as it does, a node that does not come back in one round of it never does, and
 * one that is away at both ends of a single round is away without a break; where a cabinet stood before its run, it stood there
 * for ever, if it stays until something happens: a bus that ripples across a level does not. What is cut and not known is open.
 */
import type { Stays, StayTable } from '../../engine/result.ts';
import type { Limit } from '../../limits/limit.ts';
import { type Case, repeated } from './case.ts';
import { once } from './once.ts';
import { isRoundWindow } from './round-window.ts';
import { stoodUntil_s } from './stood-before.ts';

/** A stay is as long as a round if it lacks no more than this share of it. */
const whole = 1 - 1e-9;

/** The stays of a run; Infinity for one that never ends, or never began. */
export const staysWithoutEnd: (c: Case) => Stays = once((c) => {
  const { stays } = c.result;
  return { ...stays, normal: withoutEnd(c, stays.normal), carry: withoutEnd(c, stays.carry) };
});

function withoutEnd(c: Case, table: StayTable): StayTable {
  const of = (longest: Float64Array, first: Float64Array, last: Float64Array): Float64Array =>
    longest.map((stay, k) => Math.max(stay, cutStay_s(c, first[k]!, last[k]!)));
  return {
    ...table,
    below_s: of(table.below_s, table.belowFirst_s, table.belowLast_s),
    above_s: of(table.above_s, table.aboveFirst_s, table.aboveLast_s),
  };
}

/** Length of what the window cuts at its beginning and its end, as far as that is known; 0 where nothing is. */
function cutStay_s(c: Case, first_s: number, last_s: number): number {
  const until_s = stoodUntil_s(c);
  if (until_s !== null && first_s >= (until_s - c.result.window.from_s) * whole)
    return Number.POSITIVE_INFINITY;
  const cycle = repeated(c);
  if (cycle === null || last_s === 0) return 0;
  const { from_s, to_s } = cycle.span;
  if (last_s >= (c.period_s ?? to_s - from_s) * whole) return Number.POSITIVE_INFINITY;
  return isRoundWindow(c) ? last_s + first_s : 0;
}

/** Why a stay may be longer than the window shows: at which of its ends some node lies beyond the level; null where it may not. */
export function cutAt(c: Case, { column, side, value }: Limit): 'begin' | 'end' | null {
  const { stays } = c.result;
  const table = column === 'carry' ? stays.carry : stays.normal;
  const lower = side === 'lower';
  const [longest, first, last] = lower
    ? [table.below_s, table.belowFirst_s, table.belowLast_s]
    : [table.above_s, table.aboveFirst_s, table.aboveLast_s];
  const level = stays.levels_V.indexOf(value!);
  const places = stays.nodes.map((_, n) => n * stays.levels_V.length + level);
  const cycle = repeated(c);
  // A round shows what comes next. A bus that ripples under a constant load comes back as it did before.
  const isBackAgain = (k: number): boolean =>
    cycle !== null && (c.period_s !== null || last[k]! < longest[k]!);
  if (places.some((k) => last[k]! > 0 && !isBackAgain(k))) return 'end';
  const isBeginKnown = stoodUntil_s(c) !== null || (cycle !== null && !cycle.disturbed);
  return !isBeginKnown && places.some((k) => first[k]! > 0) ? 'begin' : null;
}
