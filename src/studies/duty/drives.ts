/**
 * The drives of all stretches, bars and cells as warm as the slow pass finds them. Runs begin with the models' resistances; where
 * that of a bar or of cells lies more than a hundredth from what its stretch was run with, the stretch is run again with it, until
 * none does or no current moves by a hundredth of itself. A current between sources that droop moves by less than a bar's resistance does.
 */
import { movedWith } from '../../slow/between-drives.ts';
import type { Drive, StretchDrives } from '../../slow/drive.ts';
import { keyOf } from '../trials/key.ts';
import type { RunTrials, Trial } from '../trials/trial.ts';
import { type MarchedCalendar, marchCalendar } from './calendar.ts';
import type { Driven } from './driven.ts';
import { chargingChanges, type DutyPlan } from './plan.ts';
import { apart, movedBy, type Warmth, warmChanges, warmthOf } from './warm-parts.ts';

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
  readonly stands: readonly Stand[];
  readonly calendar: MarchedCalendar;
  readonly runs: number;
}

/** What stopped it: stretches whose run did not come to its end. */
export interface NotDriven {
  readonly driven: readonly Driven[];
  readonly runs: number;
}

/** Of one stretch on the way: its last run, and with which resistances it was made. */
export interface Stand {
  readonly trial: Trial<'drive'>;
  readonly driven: Driven;
  readonly drives: StretchDrives;
  /** Of its run with batteries that charge, where it has one: why its end may not stand for hours of it. */
  readonly chargingUnsettled: string | null;
  readonly warmth: Warmth;
  readonly again: Again;
  /** No current moved by what counts. */
  readonly isDone: boolean;
}

export async function marchWarm(plan: DutyPlan, run: RunTrials): Promise<Marched | NotDriven> {
  const { stretches } = plan;
  const asked = new Set<string>();
  const ask = async (trials: readonly Trial<'drive'>[]): Promise<readonly Driven[]> => {
    for (const trial of trials) asked.add(keyOf(trial));
    return run(trials);
  };
  const resting = await ask(stretches.map(({ trial }) => trial));
  if (resting.some(({ drive }) => drive === null)) return { driven: resting, runs: asked.size };
  const drives = resting.map(({ drive }) => drive!);
  const wanted = chargingWanted(plan, drives);
  const charged = await ask(wanted.map((k) => chargingTrial(stretches[k]!.trial)));
  const charging = new Map(wanted.map((k, at) => [k, charged[at]!]));
  if (charged.some(({ drive }) => drive === null))
    return { driven: resting.map((driven, k) => charging.get(k) ?? driven), runs: asked.size };
  let stands = stretches.map(
    ({ trial }, k): Stand => ({
      trial,
      driven: resting[k]!,
      drives: { resting: drives[k]!, charging: charging.get(k)?.drive ?? null },
      chargingUnsettled: charging.get(k)?.unsettled ?? null,
      warmth: new Map(),
      again: never,
      isDone: false,
    }),
  );
  for (;;) {
    const calendar = marchCalendar(
      plan,
      stands.map((one) => one.drives),
    );
    const { stretches: last } = calendar.rounds.at(-1)!;
    const warm = stretches.map((stretch, k) => warmthOf(stretch, last[k]!.end));
    const due = stands.flatMap((one, k) => (isDue(one, warm[k]!) ? [k] : []));
    if (due.length === 0) return { stands, calendar, runs: asked.size };
    const trials = due.map((k) => warmTrial(stretches[k]!, warm[k]!));
    const rerun = await ask(trials);
    const again = new Map(due.map((k, at) => [k, runAgain(stands[k]!, trials[at]!, rerun[at]!, warm[k]!)]));
    stands = stands.map((one, k) => again.get(k) ?? one);
  }
}

function isDue({ warmth, again, isDone }: Stand, warm: Warmth): boolean {
  return !isDone && again.runs < mostAgain && apart(warm, warmth) > moves_ratio;
}

function warmTrial({ trial }: DutyPlan['stretches'][number], warm: Warmth): Trial<'drive'> {
  return { ...trial, changes: [...trial.changes, ...warmChanges(warm)] };
}

function runAgain(one: Stand, trial: Trial<'drive'>, driven: Driven, warmth: Warmth): Stand {
  const { drive } = driven;
  // It comes to no end as warm as it is: that is how the stretch comes out.
  if (drive === null) return { ...one, trial, driven, isDone: true };
  const { resting, charging } = one.drives;
  const { ratio, id } = movedBy(resting, drive);
  const most_moved_ratio = Math.max(ratio, one.again.most_moved_ratio);
  return {
    ...{ trial, driven, warmth },
    chargingUnsettled: one.chargingUnsettled,
    drives: { resting: drive, charging: charging && movedWith(charging, resting, drive) },
    again: { runs: one.again.runs + 1, moved_ratio: ratio, moved: id, most_moved_ratio },
    isDone: ratio < moves_ratio,
  };
}

function chargingTrial(trial: Trial<'drive'>): Trial<'drive'> {
  return { ...trial, changes: [...trial.changes, ...chargingChanges] };
}

/** Places of stretches in which batteries may charge: none carries there, and some stretch, rest or the start leaves them short. */
function chargingWanted({ stretches }: DutyPlan, drives: readonly Drive[]): readonly number[] {
  const carries = drives.map(({ batteries }) => batteries.some(({ power_W }) => power_W > 0));
  const areShort =
    carries.some((one) => one) ||
    stretches[0]!.scenario.batteries.some(({ values }) => values.charge_ratio < 1);
  return stretches.flatMap(({ scenario }, k) => {
    const charges = scenario.batteries.some(({ values }) => values.charge_power_W > 0);
    return areShort && charges && !carries[k] ? [k] : [];
  });
}
