/** What a study keeps of a whole run that was judged, and what it takes from it: passes, what binds, how tight. */

import type { OutcomeKind } from '../../analysis/judge/outcome.ts';
import type { Finding, Metrics, Report, Verdict } from '../../analysis/judge/report.ts';
import { tie_ratio } from '../../analysis/judge/tie.ts';
import { headroomText, pairText } from '../../analysis/words/pair-text.ts';
import type { Status } from '../../engine/result.ts';

/** A limit as judged in a trial. What does not arise is left out. */
export type TrialFinding = Pick<
  Finding,
  'id' | 'column' | 'verdict' | 'value' | 'limit' | 'unit' | 'headroom_ratio' | 'node' | 'time_s'
>;

export interface RunOutcome {
  /** `no_operating_point`: the run could not begin, there is no state that feeds the load. */
  readonly status: Status | 'no_operating_point';
  readonly verdict: Verdict;
  readonly summary: string;
  /** What became of the cabinet; null where it could not begin. */
  readonly became: OutcomeKind | null;
  /** What took the cabinet down, one phrase; null where it did not collapse. */
  readonly collapse: string | null;
  /** Why the run shows nothing of an event that the study added; null where it shows all of them. */
  readonly unfelt: string | null;
  /** Statements of the basis that condition a pass. */
  readonly conditions: readonly string[];
  /** What the reader of the files warned of. */
  readonly warnings: readonly string[];
  /** Binding first. */
  readonly findings: readonly TrialFinding[];
  readonly metrics: Metrics | null;
  /** Of the judged window, everything between feeders and load; null where it could not begin or left no finite number. */
  readonly loss_mean_W: number | null;
}

/** `unfelt`: why the run shows nothing of an event that the study added; it is then inconclusive, not passed. */
export function outcomeOf(report: Report, unfelt: string | null = null): RunOutcome {
  // A fail stands; anything else says nothing of a fault that was not there.
  const hidden = unfelt !== null && report.status === 'ok' && report.verdict !== 'fail';
  return {
    status: report.status,
    verdict: hidden ? 'inconclusive' : report.verdict,
    summary: hidden ? `Inconclusive: ${unfelt}.` : report.summary,
    became: report.outcome.kind,
    collapse: report.collapse,
    unfelt,
    conditions: [
      ...(hidden ? [unfelt] : []),
      ...report.basis
        .filter(({ conditions, kind }) => conditions && kind !== 'waived')
        .map(({ what }) => what),
    ],
    warnings: report.basis.filter(({ kind }) => kind === 'warned').map(({ what }) => what),
    findings: report.findings
      .filter(({ verdict }) => verdict !== 'not_applicable')
      .map(({ id, column, verdict, value, limit, unit, headroom_ratio, node, time_s }) => {
        return { id, column, verdict, value, limit, unit, headroom_ratio, node, time_s };
      }),
    metrics: report.metrics,
    loss_mean_W: meanLossOf(report),
  };
}

function meanLossOf({ energy: { loss_J }, window_s: { from, to } }: Report): number | null {
  return loss_J === null || !(to > from) ? null : loss_J / (to - from);
}

/** The outcome of a trial that has no state to begin in. */
export function noOperatingPoint(why: string): RunOutcome {
  return {
    status: 'no_operating_point',
    verdict: 'fail',
    summary: `Cannot begin: ${why}.`,
    became: null,
    collapse: null,
    unfelt: null,
    conditions: [],
    warnings: [],
    findings: [],
    metrics: null,
    loss_mean_W: null,
  };
}

/** With conditions or without. A run that did not reach its end, or whose numbers failed, never does. */
export function passes({ status, verdict }: RunOutcome): boolean {
  return status === 'ok' && (verdict === 'pass' || verdict === 'pass_with_conditions');
}

/**
 * The limit that decides: of a trial that passes the one it is closest to, otherwise the one that it exceeds most; null
 * where no limit decides, because the run collapsed, could not be judged or its numbers failed.
 */
export function bindingOf(outcome: RunOutcome): TrialFinding | null {
  const decides = passes(outcome) ? 'pass' : 'fail';
  return outcome.findings.find(({ verdict }) => verdict === decides) ?? null;
}

/** What decides a trial that no limit decides. */
export function decidedBy({ status, verdict, collapse }: RunOutcome): string {
  if (status !== 'ok') return status;
  if (collapse !== null) return 'collapsed';
  return verdict === 'inconclusive' ? 'inconclusive' : 'no limit judged';
}

/** A limit's own number beside its own limit: `45.2 V against 43 V, headroom 12 %`. */
export function numbersOf(
  finding: Pick<TrialFinding, 'value' | 'limit' | 'unit' | 'headroom_ratio'>,
): string {
  const [value, limit] = pairText(finding);
  const { headroom_ratio } = finding;
  const room =
    headroom_ratio === null || headroom_ratio < 0
      ? ''
      : headroom_ratio === 0
        ? ', at the limit'
        : `, headroom ${headroomText(headroom_ratio)}`;
  return `${value} against ${limit}${room}`;
}

/** Limits that apply and could not be judged in some of the outcomes, each once. */
export function notJudged(outcomes: readonly RunOutcome[]): readonly string[] {
  const open = outcomes.flatMap(({ findings }) =>
    findings.filter(({ verdict }) => verdict === 'inconclusive').map(({ id }) => id),
  );
  return [...new Set(open)].sort();
}

/**
 * Least headroom over all judged limits: below 0 where one is exceeded, 0 where it lies on one. What is exceeded and
 * has no headroom, or a run that came to no verdict, stands at −1.
 */
export function tightest(outcome: RunOutcome): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { verdict, headroom_ratio } of outcome.findings) {
    if (verdict !== 'pass' && verdict !== 'fail') continue;
    least = Math.min(least, roomOf({ verdict, headroom_ratio }));
  }
  if (!passes(outcome) && !(least < 0)) return -1;
  return Number.isFinite(least) ? least : passes(outcome) ? 1 : -1;
}

/**
 * Headroom of a limit that was judged, on the side of 0 that its verdict is on: what is kept on a tie has none left, what is
 * exceeded lies beyond. What has no headroom stands at −1 where it is exceeded.
 */
export function roomOf({
  verdict,
  headroom_ratio,
}: Pick<TrialFinding, 'verdict' | 'headroom_ratio'>): number {
  if (verdict === 'fail') return Math.min(-tie_ratio, headroom_ratio ?? -1);
  return Math.max(0, headroom_ratio ?? Number.POSITIVE_INFINITY);
}
