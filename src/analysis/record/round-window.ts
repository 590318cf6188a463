/** A window of one round of the load and no more: what it cuts at its end goes on at its beginning. */
import { type Case, repeated, windowLength_s } from './case.ts';

export function isRoundWindow(c: Case): boolean {
  const cycle = repeated(c);
  const isAll = c.period_s !== null && windowLength_s(c) * (1 - 1e-9) <= c.period_s;
  return cycle !== null && isAll && !cycle.disturbed;
}
