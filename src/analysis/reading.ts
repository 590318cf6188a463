import type { Outside } from './report.ts';

/** What was read off a run for one limit, before it is judged. */
export interface Reading {
  /** null: does not arise in this run; then `reason` says why. */
  readonly value: number | null;
  /** Where zero deviation lies, for limits about a nominal. */
  readonly nominal?: number;
  /** Set where the comparison is made on the raw data and not on `value`. */
  readonly passes?: boolean;
  /** No headroom: a count, or what a load leaves of its own rating. */
  readonly counts?: boolean;
  readonly node?: string | null;
  readonly time_s?: number | null;
  readonly duration_s?: number | null;
  readonly count?: number | null;
  /** The window is too short to call a fail one. */
  readonly tooShort?: boolean;
  readonly reason?: string | null;
  /** Where there is no value: it cannot arise in this cabinet under this load; otherwise the input cannot show it. */
  readonly cannotArise?: boolean;
  /** Part of the judged window that it was read from. */
  readonly share_seen?: number | null;
  /** The worst value of the rest. */
  readonly outside?: Outside | null;
}

/** A quantity that does not arise in this run, and why. */
export function absent(reason: string): Reading {
  return { value: null, reason };
}
