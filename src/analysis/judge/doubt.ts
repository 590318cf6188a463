/**
 * Doubt: how far each finding moves when the run is varied in nothing physical, over the deviation its limit allows.
 * Two finer steps show what the step does, two nudges which way quantised trims fall; the largest move counts. The
 * engine is second order, so a smooth value moves by 3/4 of its error at half the step and by 15/16 at a quarter; where
 * the second move is the larger one the value is not smooth, and the largest move is all that is known.
 */

import { entry } from '../basis/entry.ts';
import { guarded, notGuarded } from '../basis/rule.ts';
import type { BasisEntry } from '../basis.ts';
import { bindingFirst } from './findings.ts';
import type { Finding, Report } from './report.ts';
import { concluded } from './verdict.ts';

/** The same run judged another time; `how` as a phrase: `at half the step`. */
export interface Varied {
  readonly how: string;
  readonly report: Report;
}

/** The report with the doubt of each finding; its verdict is guarded by it. A variation that was stopped stops it. */
export function withDoubt(report: Report, varied: readonly Varied[]): Report {
  const stopped = varied.find((v) => v.report.status === 'stopped');
  if (stopped !== undefined) return stopped.report;
  const comparable = report.status === 'ok' ? varied.filter((v) => v.report.status === 'ok') : [];
  const findings = bindingFirst([
    ...report.findings.map((finding) => doubted(finding, comparable)),
    ...onlyElsewhere(report.findings, comparable),
  ]);
  const rule = guarded(varied.map(({ how }) => how));
  const rest = report.basis.filter(({ what }) => what !== notGuarded.what);
  return concluded({ ...report, findings, basis: [rule, ...endings(report, varied), ...rest] });
}

/** How the run ends otherwise when varied; of a run that failed or collapsed also that it stands, and with what times. */
function endings(report: Report, varied: readonly Varied[]): BasisEntry[] {
  const endOf = ({ status, outcome }: Report): string =>
    status === 'ok' ? outcome.kind : status.replaceAll('_', ' ');
  const end = endOf(report);
  const others = varied.filter((v) => endOf(v.report) !== end);
  const differing = others.map(({ how, report: other }) =>
    entry('rule', `${how} it ends ${endOf(other)}, not ${end}`, {
      reason: other.failure ?? other.outcome.because,
      conditions: true,
    }),
  );
  if (differing.length > 0 || (report.status === 'ok' && report.collapse === null)) return differing;
  const ends = varied.map(({ how, report: { outcome } }) => `${how} ${outcome.because}`);
  return [
    entry('rule', `it ends ${end} however it is varied`, {
      reason: `${report.outcome.because}; ${ends.join('; ')}`,
    }),
  ];
}

function keyOf(finding: Finding): string {
  return `${finding.id} ${finding.column}`;
}

function doubted(finding: Finding, varied: readonly Varied[]): Finding {
  if (varied.length === 0) return finding;
  const moves = varied.map(({ how, report }) => {
    const other = report.findings.find((f) => keyOf(f) === keyOf(finding));
    return { how, other, move: other === undefined ? null : moveOf(finding, other) };
  });
  const sizes = moves.flatMap(({ move }) => move ?? []);
  const doubt_ratio = sizes.length === 0 ? null : Math.max(...sizes);
  const turned = moves.filter(({ other }) => other?.verdict !== finding.verdict);
  const isJudged = finding.verdict === 'pass' || finding.verdict === 'fail';
  const { headroom_ratio } = finding;
  const isSmall = doubt_ratio !== null && headroom_ratio !== null && doubt_ratio >= Math.abs(headroom_ratio);
  const within_doubt = isJudged && (turned.length > 0 || isSmall);
  // What does not arise conditions nothing, unless it arises and is no pass when the run is varied.
  const mayArise =
    finding.verdict === 'not_applicable' &&
    turned.some(({ other }) => other?.verdict === 'fail' || other?.verdict === 'inconclusive');
  const notes = [
    ...(isSmall ? ['within the doubt: it moves by more than its headroom'] : []),
    ...turned.map(
      ({ how, other }) =>
        `${how} ${other === undefined ? 'it does not arise' : `the outcome is ${words(other)}`}`,
    ),
  ];
  const reason = [finding.reason, ...notes].filter((part) => part !== null).join('; ');
  return {
    ...finding,
    verdict: mayArise ? 'inconclusive' : finding.verdict,
    doubt_ratio,
    within_doubt,
    reason: reason === '' ? null : reason,
  };
}

function words({ verdict }: Finding): string {
  return verdict.replaceAll('_', ' ');
}

/** Limits that apply only where the run is varied: whether they do is not settled. */
function onlyElsewhere(findings: readonly Finding[], varied: readonly Varied[]): Finding[] {
  const known = new Set(findings.map(keyOf));
  return varied.flatMap(({ how, report }) =>
    report.findings
      .filter((f) => !known.has(keyOf(f)))
      .map((f) => {
        known.add(keyOf(f));
        return {
          ...f,
          verdict: 'inconclusive',
          headroom_ratio: null,
          reason: `applies only ${how}: ${words(f)}`,
        } as const;
      }),
  );
}

/** Headrooms are already over the allowed deviation; without one the value itself over its limit. */
function moveOf(finding: Finding, other: Finding): number | null {
  if (finding.headroom_ratio !== null && other.headroom_ratio !== null) {
    return Math.abs(finding.headroom_ratio - other.headroom_ratio);
  }
  if (finding.value === null || other.value === null || finding.limit === null) return null;
  const scale = Math.abs(finding.limit) > 0 ? Math.abs(finding.limit) : 1;
  return Math.abs(finding.value - other.value) / scale;
}
