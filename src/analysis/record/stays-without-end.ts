/**
 * Stays with what lies before the judged window and behind it, where that is known. A stay that the window cuts is longer than
 * what is left of it there: where a load goes on as it does, a node that does not come back in one round of it never does, and
 * one that is away at both ends of a single round is away without a break; where a cabinet stood before its run, it stood there
 * for ever. What is cut and not known is open.
 */
import type { Stays, StayTable } from '../../engine/result.ts';
import type { Limit } from '../../limits/limit.ts';
import { type Case, repeated } from './case.ts';
import { once } from './once.ts';
import { isRoundWindow } from './round-window.ts';
import { stoodBefore } from './stood-before.ts';

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
  if (first_s > 0 && stoodBefore(c)) return Number.POSITIVE_INFINITY;
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
  const level = stays.levels_V.indexOf(value!);
  const isAny = (cut: Float64Array): boolean =>
    stays.nodes.some((_, n) => cut[n * stays.levels_V.length + level]! > 0);
  const lower = side === 'lower';
  const cycle = repeated(c);
  // A round shows what comes next; a constant load may come to rest beyond a level that it had not reached before.
  const isEndKnown = cycle !== null && c.period_s !== null;
  if (!isEndKnown && isAny(lower ? table.belowLast_s : table.aboveLast_s)) return 'end';
  const isBeginKnown = stoodBefore(c) || (cycle !== null && !cycle.disturbed);
  return !isBeginKnown && isAny(lower ? table.belowFirst_s : table.aboveFirst_s) ? 'begin' : null;
}
