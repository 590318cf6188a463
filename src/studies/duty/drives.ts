/**
 * The drives of all stretches, bars as warm as the slow pass finds them. Runs begin with the models' resistances; where that of
 * a bar lies more than a hundredth from what its stretch was run with, the stretch is run again with it, until none does or no
 * current moves by a hundredth of itself. A current between sources that droop moves by less than a bar's resistance does.
 */
import type { Drive, StretchDrives } from '../../slow/drive.ts';
import type { RunTrials, Trial } from '../trials/trial.ts';
import { type MarchedCalendar, marchCalendar } from './calendar.ts';
import type { Driven } from './driven.ts';
import { chargingChanges, type DutyPlan } from './plan.ts';
import { apart, movedBy, type Warmth, warmChanges, warmthOf } from './warm-bars.ts';

/** A resistance, and a current, that has moved by less is as it was. */
const moves_ratio = 0.01;
/** Runs of a stretch at most: feedback through copper shrinks more than tenfold each time. */
const mostAgain = 5;

/** How often a stretch was run again, how far a current moved between the last two of its runs, which, and at most between any two. */
export interface Again {
  readonly runs: number;
  readonly moved_ratio: number;
  readonly moved: string | null;
  readonly most_moved_ratio: number;
}

export const never: Again = { runs: 0, moved_ratio: 0, moved: null, most_moved_ratio: 0 };

export interface Marched {
  readonly driven: readonly Driven[];
  readonly drives: readonly StretchDrives[];
  readonly again: readonly Again[];
  readonly calendar: MarchedCalendar;
  readonly trials: readonly Trial<'drive'>[];
  readonly runs: number;
}

/** What stopped it: stretches whose run did not come to its end. */
export interface NotDriven {
  readonly driven: readonly Driven[];
  readonly runs: number;
}

export async function marchWarm(plan: DutyPlan, run: RunTrials): Promise<Marched | NotDriven> {
  const { stretches } = plan;
  const resting = await run(stretches.map(({ trial }) => trial));
  let runs = stretches.length;
  if (resting.some(({ drive }) => drive === null)) return { driven: resting, runs };
  const wanted = chargingWanted(
    plan,
    resting.map(({ drive }) => drive!),
  );
  const charged = await run(stretches.filter((_, k) => wanted[k]).map(({ trial }) => chargingTrial(trial)));
  runs += charged.length;
  let next = 0;
  const state = stretches.map(({ trial }, k) => ({
    trial,
    driven: resting[k]!,
    drives: { resting: resting[k]!.drive!, charging: wanted[k] ? (charged[next++]!.drive ?? null) : null },
    warmth: new Map() as Warmth,
    again: never,
    isDone: false,
  }));
  for (;;) {
    const calendar = marchCalendar(
      plan,
      state.map(({ drives }) => drives),
    );
    const last = calendar.rounds.at(-1)!;
    const warm = stretches.map(({ scenario }, k) => warmthOf(scenario, last.stretches[k]!.end.bar_K));
    const due = state.flatMap((one, k) => {
      const first = one.warmth.size === 0 ? modelWarmth(warm[k]!) : one.warmth;
      return !one.isDone && one.again.runs < mostAgain && apart(warm[k]!, first) > moves_ratio ? [k] : [];
    });
    if (due.length === 0) {
      return {
        driven: state.map(({ driven }) => driven),
        drives: state.map(({ drives }) => drives),
        again: state.map(({ again }) => again),
        trials: state.map(({ trial }) => trial),
        calendar,
        runs,
      };
    }
    const trials = due.map((k): Trial<'drive'> => {
      const { trial, scenario } = stretches[k]!;
      return { ...trial, changes: [...trial.changes, ...warmChanges(scenario, warm[k]!)] };
    });
    const rerun = await run(trials);
    const charging = due.filter((k) => wanted[k]);
    const recharged = await run(charging.map((k) => chargingTrial(trials[due.indexOf(k)]!)));
    runs += trials.length + recharged.length;
    due.forEach((k, at) => {
      const one = state[k]!;
      const drive = rerun[at]!.drive;
      if (drive === null) {
        one.isDone = true;
        return;
      }
      const { ratio, id } = movedBy(one.drives.resting, drive);
      const place = charging.indexOf(k);
      one.driven = rerun[at]!;
      one.trial = trials[at]!;
      one.drives = {
        resting: drive,
        charging: place < 0 ? null : (recharged[place]!.drive ?? one.drives.charging),
      };
      one.warmth = warm[k]!;
      one.again = {
        runs: one.again.runs + 1,
        moved_ratio: ratio,
        moved: id,
        most_moved_ratio: Math.max(ratio, one.again.most_moved_ratio),
      };
      one.isDone = ratio < moves_ratio;
    });
  }
}

/** As the models state their resistances. */
function modelWarmth(of: Warmth): Warmth {
  return new Map([...of.keys()].map((path) => [path, 1]));
}

function chargingTrial(trial: Trial<'drive'>): Trial<'drive'> {
  return { ...trial, changes: [...trial.changes, ...chargingChanges] };
}

/** Stretches in which batteries may charge: where none carries, and some stretch or the start leaves them short. */
function chargingWanted({ stretches }: DutyPlan, drives: readonly Drive[]): readonly boolean[] {
  const carries = drives.map(({ batteries }) => batteries.some(({ power_W }) => power_W > 0));
  const areShort =
    carries.some((one) => one) ||
    stretches[0]!.scenario.batteries.some(({ values }) => values.charge_ratio < 1);
  return stretches.map(({ scenario }, k) => {
    const charges = scenario.batteries.some(({ values }) => values.charge_power_W > 0);
    return areShort && charges && !carries[k];
  });
}
