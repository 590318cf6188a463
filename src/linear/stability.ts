/** What the linear model says about a run: where it was looked at, and the mode that decides. */
import type { Owner } from './owners.ts';

export interface DecidingMode {
  readonly frequency_Hz: number;
  /** −Re(s)/|s|: negative for a mode that grows. */
  readonly damping_ratio: number;
  /** Re(s): negative for a mode that decays. */
  readonly growth_per_s: number;
  /** Named for the worst mode of a run where its damping ratio is below 0.05. */
  readonly owners: readonly Owner[];
}

/** A settled point that the run rested at, with its mode of least damping; null where every loop is too slow to tell. */
export interface PointLookedAt {
  readonly load_W: number;
  /** When the run first rested there. */
  readonly from_s: number;
  /** Battery shelves that carry, and rectifier shelves that give nothing. */
  readonly carrying: readonly string[];
  readonly stopped: readonly string[];
  readonly mode: DecidingMode | null;
}

export interface Stability {
  readonly points: readonly PointLookedAt[];
  /** The least damped of all points. */
  readonly worst: PointLookedAt | null;
  /** Points that the run rested at and that were not looked at, and why; one sentence each. */
  readonly not_looked: readonly string[];
}

export function notLooked(reason: string): Stability {
  return { points: [], worst: null, not_looked: [reason] };
}
