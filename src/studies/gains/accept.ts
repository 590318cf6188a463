/** What a point of a gains map must show to be acceptable. All common practice, no source. */
import { leastDamping } from '../damping.ts';
import type { GainsCell } from './cell.ts';

export interface Acceptance {
  /** Least damping of modes below 1 kHz and from 1 to 10 kHz. */
  readonly damping_ratio: number;
  readonly damping_fast_ratio: number;
  /** Least distance of the share loop's gain from −1: 0.6 is a gain margin of 8 dB at least. */
  readonly clearance_ratio: number;
  readonly settling_s: number;
  readonly steady_error_ratio: number;
  readonly overshoot_ratio: number;
}

export const usualAcceptance: Acceptance = {
  damping_ratio: leastDamping.below_1kHz_ratio,
  damping_fast_ratio: leastDamping.below_10kHz_ratio,
  clearance_ratio: 0.6,
  settling_s: 0.5,
  steady_error_ratio: 0.05,
  overshoot_ratio: 0.2,
};

/** Why a cell is not acceptable, the first reason in this order; null where it is. */
export function lacks(cell: GainsCell, a: Acceptance): string | null {
  if (cell.reason !== null) return cell.reason;
  if (!cell.stable) return 'unstable';
  const under = (value: number | null, least: number): boolean => value !== null && value < least;
  if (under(cell.damping_ratio, a.damping_ratio)) return `damping below ${a.damping_ratio} under 1 kHz`;
  if (under(cell.damping_fast_ratio, a.damping_fast_ratio))
    return `damping below ${a.damping_fast_ratio} from 1 to 10 kHz`;
  if (under(cell.clearance_ratio, a.clearance_ratio)) return `nearer to −1 than ${a.clearance_ratio}`;
  if (cell.settling_s === null || cell.settling_s > a.settling_s)
    return `settles slower than ${a.settling_s} s`;
  if ((cell.overshoot_ratio ?? 0) > a.overshoot_ratio)
    return `overshoots by more than ${100 * a.overshoot_ratio} %`;
  if ((cell.steady_error_ratio ?? 0) > a.steady_error_ratio)
    return `steady share error above ${100 * a.steady_error_ratio} %`;
  return null;
}

/** Acceptable, stable without being so, or neither. */
export function standingOf({
  stable,
  lacks,
}: {
  readonly stable: boolean;
  readonly lacks: string | null;
}): 'kept' | 'weak' | 'broken' {
  if (lacks === null) return 'kept';
  return stable ? 'weak' : 'broken';
}

/** What keeps a cell from being acceptable, as one letter; a dot where nothing does. */
export function letterOf({
  stable,
  lacks,
  reason,
}: {
  stable: boolean;
  lacks: string | null;
  reason: string | null;
}): string {
  if (reason !== null) return '?';
  if (!stable) return 'U';
  if (lacks === null) return '·';
  if (lacks.startsWith('damping')) return 'd';
  if (lacks.startsWith('nearer')) return 'm';
  if (lacks.startsWith('settles')) return 's';
  if (lacks.startsWith('overshoots')) return 'o';
  return 'e';
}

export const letterWords =
  '· acceptable, U unstable, d damping, m margin, s settling, o overshoot, e steady error, ? no numbers';
