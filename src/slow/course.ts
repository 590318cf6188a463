/** A stretch marched in pieces: the course of its slow states, their highest values, and moments that count. */

import { softened_K } from './joint-heat.ts';
import { higherOf, noPeaks, type Peaks } from './peaks.ts';
import type { SlowCabinet } from './slow-cabinet.ts';
import type { SlowStates } from './slow-states.ts';

/** A piece is at most this long where nothing but heat moves, and where batteries carry, wait or charge [s]. */
const calmPiece_s = 600;
const busyPiece_s = 10;
/** Pieces of a stretch at least, and points of its course at most about. */
const pieces = 48;

/** The worst of each kind at a moment. */
export interface CoursePoint {
  readonly at_s: number;
  readonly bar_K: number | null;
  readonly joint_K: number | null;
  readonly tray_degC: number | null;
  readonly bank_degC: number | null;
  readonly charge_ratio: number | null;
  readonly pack_degC: number | null;
}

export type MomentKind = 'empty' | 'full' | 'softened';

export interface Moment {
  readonly at_s: number;
  readonly who: string;
  readonly what: MomentKind;
  /** Of a battery that is full: since it came to rest [s]. */
  readonly took_s: number | null;
}

export interface Course {
  readonly states: SlowStates;
  readonly points: readonly CoursePoint[];
  readonly moments: readonly Moment[];
  /** Highest after the stretch's beginning: what it begins with is of the stretch before. */
  readonly peaks: Peaks;
}

/** States after a stretch of `length_s` that begins at `from_s`. */
export function marchStretch(
  cabinet: SlowCabinet,
  begin: SlowStates,
  from_s: number,
  length_s: number,
): Course {
  const points: CoursePoint[] = [];
  const moments: Moment[] = [];
  let states = begin;
  let peaks = noPeaks;
  let done_s = 0;
  let shown_s = 0;
  while (done_s < length_s * (1 - 1e-12)) {
    const most_s = cabinet.isBusy(states) ? busyPiece_s : calmPiece_s;
    const piece_s = Math.min(most_s, length_s / pieces, length_s - done_s);
    const next = cabinet.advance(states, piece_s);
    done_s += piece_s;
    moments.push(...momentsBetween(states, next, from_s + done_s));
    states = next;
    peaks = higherOf(peaks, states, from_s + done_s);
    if (done_s - shown_s >= (length_s / pieces) * (1 - 1e-9)) {
      points.push(pointOf(states, from_s + done_s));
      shown_s = done_s;
    }
  }
  return { states, points, moments, peaks };
}

export function pointOf(
  { bar_K, joint_K, tray_degC, bank_degC, packs }: SlowStates,
  at_s: number,
): CoursePoint {
  const most = (values: Iterable<number>): number | null => {
    const found = [...values];
    return found.length === 0 ? null : Math.max(...found);
  };
  const all = [...packs.values()];
  return {
    at_s,
    bar_K: most(bar_K.values()),
    joint_K: most(joint_K.values()),
    tray_degC: most(tray_degC.values()),
    bank_degC: most(bank_degC.values()),
    charge_ratio: all.length === 0 ? null : Math.min(...all.map(({ charge_ratio }) => charge_ratio)),
    pack_degC: most(all.map(({ degC }) => degC)),
  };
}

/** What came to be within a piece, told at its end. */
function momentsBetween(before: SlowStates, after: SlowStates, at_s: number): Moment[] {
  const packs = [...after.packs].flatMap(([who, { phase }]): Moment[] => {
    const was = before.packs.get(who)!;
    if (phase === was.phase || (phase !== 'empty' && phase !== 'full')) return [];
    return [{ at_s, who, what: phase, took_s: phase === 'full' ? was.short_s : null }];
  });
  const joints = [...after.joint_K].flatMap(([who, rise_K]): Moment[] =>
    rise_K >= softened_K && !((before.joint_K.get(who) ?? 0) >= softened_K)
      ? [{ at_s, who, what: 'softened', took_s: null }]
      : [],
  );
  return [...packs, ...joints];
}
