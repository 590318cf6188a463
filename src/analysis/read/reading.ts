import type { Outside } from '../judge/report.ts';

/** What was read off a run for one limit, before it is judged. */
export interface Reading {
  /** null: nothing could be read; `reason` says why, `cannotArise` which of the two kinds of nothing it is. */
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
  /**
   * Why the window does not settle it although there is a value: `worse` where more of the load could only make it worse
   * (then a value beyond the limit fails all the same), `either` where it could go both ways.
   */
  readonly unsettled?: { readonly because: string; readonly truth: 'worse' | 'either' };
  readonly reason?: string | null;
  /** Where there is no value: it cannot arise in this cabinet under this load; otherwise the window does not show it. */
  readonly cannotArise?: boolean;
  /** A run reports it and does not judge it, although there is a value. */
  readonly reportedOnly?: boolean;
  /** Part of the judged window that it was read from. */
  readonly share_seen?: number | null;
  /** The worst value of the rest. */
  readonly outside?: Outside | null;
}

/** A quantity that this cabinet under this load cannot have, and why. It conditions nothing. */
export function cannotArise(reason: string): Reading {
  return { value: null, reason, cannotArise: true };
}

/** A quantity that the judged window does not show, and why. It is a condition. */
export function notShown(reason: string): Reading {
  return { value: null, reason };
}

/** A reading whose window is too short to settle it. */
export function unsettled(reading: Reading, because: string, truth: 'worse' | 'either'): Reading {
  return { ...reading, unsettled: { because, truth } };
}
