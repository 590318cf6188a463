/**
 * What every study is: a plan is data, made from files and options; trials are asked for, a list at a time, perhaps
 * again after what was seen; a report sums them up. A study reads no files and starts no threads. Who carries it out
 * (`cli/study/`) hands it `run`, which keeps, resumes, splits and stops alike for all of them.
 */
import type { Problem } from '../base/problem.ts';
import type { End } from './end.ts';
import type { Identity } from './identity.ts';
import type { RunTrials, Trial, TrialKind } from './trials/trial.ts';

/** What every plan holds. */
export interface Planned {
  /** What is told to be running. */
  readonly called: string;
  /** About how many trials it takes, where that is not known from the list of them. */
  readonly expects?: number;
  readonly identity: Identity;
  /** What the reader of its files warned of, where its report does not say so. */
  readonly warnings: readonly Problem[];
}

export interface Study<Plan extends Planned, Report> {
  /** Its command. */
  readonly name: string;
  carryOut(plan: Plan, run: RunTrials): Promise<Report>;
  /** How it is split; null: it is one trial, or each depends on the one before. */
  readonly parts: Parts<Plan> | null;
  /** What was judged of it as a whole: its exit code, the colour of its answer. */
  end(report: Report): End;
  /** The answer in one line; null where it has none that short. */
  sentence(report: Report, plan: Plan): string | null;
  /** Files for people beside the JSON, by name. */
  papers(report: Report): Readonly<Record<string, string>>;
}

/** How a study is split over machines. */
export interface Parts<Plan> {
  /** What it is split into, for people: `cells`. */
  readonly what: string;
  count(plan: Plan): number;
  /** Carries out those that `isOwn` takes; gives how many they were. */
  carryOut(plan: Plan, run: RunTrials, isOwn: (index: number) => boolean): Promise<number>;
  /** What parts hold between them, where a study goes on from there; null where they hold all it asks for. */
  held(plan: Plan): readonly Trial[] | null;
}

/** Parts of a study whose trials are known beforehand. `goesOn`: it asks for more once it has seen these. */
export function partsOfList<Plan, K extends TrialKind>(
  what: string,
  trialsOf: (plan: Plan) => readonly Trial<K>[],
  goesOn: 'goes on' | 'ends there',
): Parts<Plan> {
  return {
    what,
    count: (plan) => trialsOf(plan).length,
    carryOut: async (plan, run, isOwn) => (await run(trialsOf(plan).filter((_, k) => isOwn(k)))).length,
    held: (plan) => (goesOn === 'goes on' ? trialsOf(plan) : null),
  };
}
