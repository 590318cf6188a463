/** The slow pass over a whole calendar, again and again until a round leaves the cabinet as it found it. */
import type { CoursePoint, Moment } from '../../slow/course.ts';
import { marchStretch, pointOf } from '../../slow/course.ts';
import type { StretchDrives } from '../../slow/drive.ts';
import type { Peaks } from '../../slow/peaks.ts';
import { SlowCabinet } from '../../slow/slow-cabinet.ts';
import { type SlowStates, slowStart } from '../../slow/slow-states.ts';
import { type DutyPlan, roundLength_s } from './plan.ts';

/** A round that moves no temperature by more than this [K] and no charge by more than this is every later round. */
const same_K = 0.05;
const same_ratio = 1e-3;

export interface MarchedStretch {
  readonly begin: SlowStates;
  readonly end: SlowStates;
  readonly points: readonly CoursePoint[];
  readonly moments: readonly Moment[];
  readonly peaks: Peaks;
}

export interface MarchedRound {
  readonly from_s: number;
  readonly stretches: readonly MarchedStretch[];
}

export interface MarchedCalendar {
  /** Of all rounds that were marched: the first, then those that differ from the one before. */
  readonly rounds: readonly MarchedRound[];
  /** A round as the last one leaves the cabinet as it found it: all later ones are alike. */
  readonly isSettled: boolean;
}

/** `drives`: of each stretch, in their order. */
export function marchCalendar(plan: DutyPlan, drives: readonly StretchDrives[]): MarchedCalendar {
  const { stretches, repeat, begin } = plan;
  const cabinets = stretches.map(({ scenario }, k) => new SlowCabinet(scenario, drives[k]!));
  const round_s = roundLength_s(plan);
  const rounds: MarchedRound[] = [];
  let states = slowStart(stretches[0]!.scenario, drives[0]!.resting, begin);
  for (let n = 0; n < repeat; n++) {
    const first = states;
    let at_s = n * round_s;
    const marched = stretches.map(({ for_s }, k): MarchedStretch => {
      const from = states;
      const course = marchStretch(cabinets[k]!, from, at_s, for_s);
      const begins = pointOf(from, at_s);
      at_s += for_s;
      states = course.states;
      const { points, moments, peaks } = course;
      return { begin: from, end: states, points: [begins, ...points], moments, peaks };
    });
    rounds.push({ from_s: n * round_s, stretches: marched });
    if (isSame(first, states)) return { rounds, isSettled: true };
  }
  return { rounds, isSettled: false };
}

function isSame(before: SlowStates, after: SlowStates): boolean {
  const near = (a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): boolean =>
    [...b].every(([id, value]) => Math.abs(value - (a.get(id) ?? value)) <= same_K);
  const packs = [...after.packs].every(([id, pack]) => {
    const was = before.packs.get(id)!;
    const isNear = Math.abs(pack.charge_ratio - was.charge_ratio) <= same_ratio;
    return isNear && pack.phase === was.phase && Math.abs(pack.degC - was.degC) <= same_K;
  });
  return (
    packs &&
    near(before.bar_K, after.bar_K) &&
    near(before.joint_K, after.joint_K) &&
    near(before.tray_degC, after.tray_degC) &&
    near(before.bank_degC, after.bank_degC)
  );
}
