/** What a duty found. */
import type { CoursePoint, Moment } from '../../slow/course.ts';
import { filesOf, headOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import { replayOf } from '../trials/replay.ts';
import type { RunOutcome, TrialFinding } from '../trials/run-outcome.ts';
import { type Letter, letterOf } from '../trials/states.ts';
import type { Trial } from '../trials/trial.ts';
import { type Again, type Marched, type NotDriven, never, type Stand } from './drives.ts';
import { type DutyPlan, roundLength_s } from './plan.ts';
import { type DutyFinding, settledFindings, settledQuantities } from './settled.ts';

export interface DutyStretch {
  readonly name: string;
  readonly from_s: number;
  readonly for_s: number;
  /** How its fast run came out, but for what the course judges. */
  readonly letter: Letter;
  /** Limits that its run exceeds, beside what the course judges. */
  readonly exceeded: readonly TrialFinding[];
  /** What its run rests on, without the limits that the course judges. */
  readonly conditions: readonly string[];
  /** Limits that its run leaves open and the course judges. */
  readonly settled: readonly string[];
  /** Runs with bars as warm as they are, and how far a current moved between the last two. */
  readonly again: Again;
  readonly trial: Trial<'run'>;
  readonly replay: string;
}

/** The course of one round: the worst of each kind, at the ends of pieces. */
export interface DutyPoint extends CoursePoint {
  readonly stretch: string;
}

export interface DutyReport extends StudyHead {
  readonly limit_titles: LimitTitles;
  /** Of the calendar, once, and how often it is gone through. */
  readonly round_s: number;
  readonly repeat: number;
  readonly begin: DutyPlan['begin'];
  /** Rounds until one leaves the cabinet as it found it; null where none did. */
  readonly settled_after: number | null;
  readonly stretches: readonly DutyStretch[];
  /** Limits that the course judges, the worst first. */
  readonly findings: readonly DutyFinding[];
  /** Of the first round, and of the last that was marched where that is another. */
  readonly course: readonly DutyPoint[];
  readonly last_course: readonly DutyPoint[];
  /** Of all rounds that were marched. */
  readonly moments: readonly Moment[];
  readonly runs: number;
}

export function dutyReport(plan: DutyPlan, marched: Marched | NotDriven): DutyReport {
  const { study, stretches, repeat, begin } = plan;
  const isWhole = 'calendar' in marched;
  const rounds = isWhole ? marched.calendar.rounds : [];
  const courseOf = (n: number): readonly DutyPoint[] =>
    rounds[n]?.stretches.flatMap(({ points }, k) =>
      points.map((point) => ({ stretch: stretches[k]!.name, ...point })),
    ) ?? [];
  return {
    ...headOf(
      study,
      [
        ...filesOf([study.inputs, ...stretches.map(({ scenario }) => scenario.inputs)]),
        ...study.changes.map((change) => ({ change })),
      ],
      stretches.map(({ scenario }) => scenario.nominal_V),
    ),
    limit_titles: limitTitles(stretches.map(({ scenario }) => scenario)),
    round_s: roundLength_s(plan),
    repeat,
    begin,
    settled_after: isWhole && marched.calendar.isSettled ? rounds.length : null,
    stretches: stretches.map(({ name, for_s, trial, scenario }, k) => {
      const { outcome } = isWhole ? marched.stands[k]!.driven : marched.driven[k]!;
      const settledIds = new Set(
        isWhole
          ? scenario.limits
              .filter(({ quantity }) => settledQuantities.some((one) => one === quantity))
              .map(({ id }) => id)
          : [],
      );
      const own = { ...(isWhole ? marched.stands[k]!.trial : trial), kind: 'run' as const };
      return {
        name,
        from_s: stretches.slice(0, k).reduce((sum, one) => sum + one.for_s, 0),
        for_s,
        ...judgedWithout(outcome, settledIds, isWhole ? unsettledWords(marched.stands[k]!) : []),
        again: isWhole ? marched.stands[k]!.again : never,
        trial: own,
        replay: replayOf(own),
      };
    }),
    findings: isWhole ? settledFindings(plan, marched.calendar) : [],
    course: courseOf(0),
    last_course: rounds.length > 1 ? courseOf(rounds.length - 1) : [],
    moments: rounds.flatMap(({ stretches: each }) => each.flatMap(({ moments }) => moments)),
    runs: marched.runs,
  };
}

/** What the course rests on where the end of a run has not settled. */
function unsettledWords({ driven, chargingUnsettled }: Stand): readonly string[] {
  return [
    ...(driven.unsettled === null ? [] : [driven.unsettled]),
    ...(chargingUnsettled === null ? [] : [`while batteries charge, ${chargingUnsettled}`]),
  ];
}

/** How a run comes out by all limits but those that the course judges; `unsettled` conditions what the course makes of it. */
function judgedWithout(
  outcome: RunOutcome,
  settledIds: ReadonlySet<string>,
  unsettled: readonly string[],
): Pick<DutyStretch, 'letter' | 'exceeded' | 'conditions' | 'settled'> {
  const findings = outcome.findings.filter(({ id }) => !settledIds.has(id));
  const exceeded = findings.filter(({ verdict }) => verdict === 'fail');
  const open = findings.filter(({ verdict }) => verdict === 'inconclusive').map(({ id }) => id);
  const conditions = [
    ...unsettled,
    ...[...new Set(open)].map((id) => `${id} inconclusive`),
    ...outcome.conditions,
  ];
  const whole = letterOf(outcome);
  const isJudged = whole === 'P' || whole === 'C' || whole === 'F' || whole === 'N';
  const letter =
    !isJudged || exceeded.length > 0
      ? isJudged
        ? 'F'
        : whole
      : conditions.length > 0 || findings.some(({ verdict }) => verdict === 'waived')
        ? 'C'
        : 'P';
  const settled = outcome.findings
    .filter(({ id, verdict }) => verdict === 'inconclusive' && settledIds.has(id))
    .map(({ id }) => id);
  return { letter, exceeded, conditions, settled: [...new Set(settled)] };
}
