/**
 * One run of a study: a scenario with changes, and what is kept of its judged run. A study is a loop around
 * the way of the data and nothing more: every trial can be repeated by one printed command.
 */
import type { Finding, Metrics, Report, Verdict } from '../analysis/report.ts';
import type { Status } from '../engine/result.ts';
import type { Change } from '../scenario/scenario.ts';

export interface Trial {
  /** Path of the scenario file. */
  readonly scenario: string;
  /** Applied after the scenario's own, in this order. */
  readonly changes: readonly Change[];
}

/** A limit as judged in a trial. What does not arise is left out. */
export type TrialFinding = Pick<
  Finding,
  'id' | 'column' | 'verdict' | 'value' | 'limit' | 'unit' | 'headroom_ratio' | 'node' | 'time_s'
>;

export interface Outcome {
  /** `no_operating_point`: the run could not begin, there is no state that feeds the load. */
  readonly status: Status | 'no_operating_point';
  readonly verdict: Verdict;
  readonly summary: string;
  /** Where the cabinet collapsed (the bus left its bounds, or every sled was dark at one time): from what it is read. */
  readonly collapse: string | null;
  /** Binding first. */
  readonly findings: readonly TrialFinding[];
  readonly metrics: Metrics | null;
}

/** Gives the outcomes of trials in their order. `enough`, asked with ever longer beginnings, may end it early. */
export type RunTrials = (
  trials: readonly Trial[],
  enough?: (beginning: readonly Outcome[]) => boolean,
) => Promise<readonly Outcome[]>;

export function outcomeOf(report: Report): Outcome {
  return {
    status: report.status,
    verdict: report.verdict,
    summary: report.summary,
    collapse: report.outcome.kind === 'collapsed' ? report.outcome.because : null,
    findings: report.findings
      .filter(({ verdict }) => verdict !== 'not_applicable')
      .map(({ id, column, verdict, value, limit, unit, headroom_ratio, node, time_s }) => {
        return { id, column, verdict, value, limit, unit, headroom_ratio, node, time_s };
      }),
    metrics: report.metrics,
  };
}

/** The outcome of a trial that has no state to begin in. */
export function noOperatingPoint(why: string): Outcome {
  return {
    status: 'no_operating_point',
    verdict: 'fail',
    summary: `Cannot begin: ${why}.`,
    collapse: null,
    findings: [],
    metrics: null,
  };
}

export function passes({ verdict }: Outcome): boolean {
  return verdict === 'pass' || verdict === 'pass_with_conditions';
}

/** The limit that a trial is closest to or furthest beyond. */
export function bindingOf({ findings }: Outcome): TrialFinding | null {
  return findings.find(({ verdict }) => verdict === 'fail' || verdict === 'pass') ?? null;
}

/** Limits that apply and could not be judged in some of the outcomes, each once. */
export function notJudged(outcomes: readonly Outcome[]): readonly string[] {
  const open = outcomes.flatMap(({ findings }) =>
    findings.filter(({ verdict }) => verdict === 'inconclusive').map(({ id }) => id),
  );
  return [...new Set(open)].sort();
}

/**
 * Least headroom over all judged limits: below 0 where one is broken. A count over its limit, or a run that
 * came to no judgement, stands at −1.
 */
export function tightest(outcome: Outcome): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { verdict, headroom_ratio } of outcome.findings) {
    if (verdict !== 'pass' && verdict !== 'fail') continue;
    least = Math.min(least, headroom_ratio ?? (verdict === 'fail' ? -1 : Number.POSITIVE_INFINITY));
  }
  if (!passes(outcome) && !(least < 0)) return -1;
  return Number.isFinite(least) ? least : passes(outcome) ? 1 : -1;
}

/** One letter for the verdict: P, C (with conditions), F, X (collapsed or could not begin), N (not judged). */
export function letterOf({ status, verdict, collapse }: Outcome): 'P' | 'C' | 'F' | 'X' | 'N' {
  if (status === 'collapsed' || status === 'no_operating_point') return 'X';
  if (collapse !== null && verdict === 'fail') return 'X';
  switch (verdict) {
    case 'pass':
      return 'P';
    case 'pass_with_conditions':
      return 'C';
    case 'fail':
      return 'F';
    case 'inconclusive':
      return 'N';
  }
}

export const letterWords: Readonly<Record<ReturnType<typeof letterOf>, string>> = {
  P: 'passes',
  C: 'passes with conditions',
  F: 'fails',
  X: 'collapsed or could not begin',
  N: 'could not be judged',
};
