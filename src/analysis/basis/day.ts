/**
 * The day for which the verdict is given. A day before that of the run is a condition, whether or not a waiver depends
 * on it: who reads the verdict takes it for today's.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry } from './entry.ts';

export function dayBasis({ judged_on, asked_on }: Pick<Stated, 'judged_on' | 'asked_on'>): BasisEntry {
  if (judged_on === undefined) return entry('rule', 'no day stated: no waiver counts as expired');
  if (asked_on === undefined || judged_on === asked_on) return entry('rule', `judged on ${judged_on}`);
  const side = judged_on < asked_on ? 'before' : 'after';
  return entry('chosen', `judged on ${judged_on}, a day ${side} ${asked_on}, the date of the run`, {
    by: '--on',
    conditions: side === 'before',
  });
}
