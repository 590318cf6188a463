/**
 * Distance to a limit over the deviation that the limit allows: positive inside, zero at the limit.
 * (limit − value)/|limit − nominal| about a nominal, either way; (limit − value)/limit for upper bounds of what is zero
 * at best; (value − limit)/limit for lower bounds. null for counts and where the limit allows no deviation.
 */
import type { Limit } from '../../limits/limit.ts';
import type { Reading } from '../read/reading.ts';
import { isTie } from './tie.ts';

export function headroomOf(reading: Reading, limit: Pick<Limit, 'value' | 'side'>): number | null {
  const { value, nominal, counts } = reading;
  if (value === null || limit.value === null || counts === true) return null;
  // A bound on the other side of the nominal allows as much as lies between them.
  const allowed = Math.abs(nominal === undefined ? limit.value : limit.value - nominal);
  const distance = limit.side === 'lower' ? value - limit.value : limit.value - value;
  const headroom = distance / allowed;
  if (!Number.isFinite(headroom)) return null;
  return isTie(value, limit.value) ? 0 : headroom;
}
