/**
 * Distance to a limit over the deviation that the limit allows: positive inside, zero at the limit.
 * (limit − value)/(limit − nominal) about a nominal; (limit − value)/limit for upper bounds of what is zero
 * at best; (value − limit)/limit for lower bounds. null for counts and where the limit allows no deviation.
 */
import type { Limit } from '../limits/limit.ts';
import type { Reading } from './reading.ts';

/** A value that was clamped to a limit lands within this of it. */
const rounding_ratio = 1e-9;

export function headroomOf(reading: Reading, limit: Pick<Limit, 'value' | 'side'>): number | null {
  const { value, nominal, counts } = reading;
  if (value === null || limit.value === null || counts === true) return null;
  const allowed = nominal === undefined ? limit.value : limit.value - nominal;
  const distance =
    nominal === undefined && limit.side === 'lower' ? value - limit.value : limit.value - value;
  const headroom = distance / allowed;
  if (!Number.isFinite(headroom)) return null;
  return Math.abs(headroom) <= rounding_ratio ? 0 : headroom;
}

/** Whether a value keeps its limit; on it counts as inside, but for what rounding leaves. */
export function isInside(value: number, limit: number, side: Limit['side']): boolean {
  const slack = rounding_ratio * Math.abs(limit);
  return side === 'upper' ? value <= limit + slack : value >= limit - slack;
}
