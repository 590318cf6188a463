/**
 * Doubt: how far each finding moves when every step of the ladder is halved, over the deviation its limit
 * allows. The engine is second order, so the finer run's own error is about a quarter: the distance between
 * the two is about three quarters of what the coarser one is off, and is given as it is measured.
 */
import type { Finding, Report } from './report.ts';

/** The report with the doubt of each finding, from the same run at half the step. */
export function withDoubt(report: Report, finer: Report): Report {
  const other = new Map(finer.findings.map((finding) => [keyOf(finding), finding]));
  return {
    ...report,
    findings: report.findings.map((finding) => doubted(finding, other.get(keyOf(finding)))),
  };
}

function keyOf(finding: Finding): string {
  return `${finding.id} ${finding.column}`;
}

function doubted(finding: Finding, finer: Finding | undefined): Finding {
  if (finer === undefined) return finding;
  const doubt_ratio = doubtOf(finding, finer);
  const note = noteOf(finding, finer, doubt_ratio);
  const reason = [finding.reason, note].filter((part) => part !== null).join('; ');
  return { ...finding, doubt_ratio, reason: reason === '' ? null : reason };
}

/** Headrooms are already over the allowed deviation; without one the value itself over its limit. */
function doubtOf(finding: Finding, finer: Finding): number | null {
  if (finding.headroom_ratio !== null && finer.headroom_ratio !== null) {
    return Math.abs(finding.headroom_ratio - finer.headroom_ratio);
  }
  if (finding.value === null || finer.value === null || finding.limit === null) return null;
  const scale = Math.abs(finding.limit) > 0 ? Math.abs(finding.limit) : 1;
  return Math.abs(finding.value - finer.value) / scale;
}

function noteOf(finding: Finding, finer: Finding, doubt: number | null): string | null {
  if (finding.verdict !== finer.verdict) {
    return `at half the step it comes out ${finer.verdict.replaceAll('_', ' ')}: not settled at this step`;
  }
  const { headroom_ratio } = finding;
  if (doubt === null || headroom_ratio === null || doubt < Math.abs(headroom_ratio)) return null;
  return 'its headroom is smaller than its doubt: not settled at this step';
}
