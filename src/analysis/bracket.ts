/**
 * Bracket: a recording does not say how its load moves between two samples. Read smooth (straight lines) and
 * sharp (steps) it gives two runs; each finding then carries both values, and what only one of them keeps is
 * inconclusive. The verdict rests on both.
 */

import type { BasisEntry } from './basis.ts';
import { bindingFirst } from './findings.ts';
import type { Finding, Report } from './report.ts';
import { concluded } from './verdict.ts';

/** The smooth report with the bracket of each finding; verdict and summary follow. */
export function withBracket(smooth: Report, sharp: Report): Report {
  const other = new Map(sharp.findings.map((finding) => [keyOf(finding), finding]));
  const findings = bindingFirst(
    smooth.findings.map((finding) => bracketed(finding, other.get(keyOf(finding)))),
  );
  return concluded({ ...smooth, findings, basis: together(smooth.basis, sharp.basis) });
}

/** The smooth reading's basis, and what only the sharp one's holds. */
function together(smooth: readonly BasisEntry[], sharp: readonly BasisEntry[]): BasisEntry[] {
  const known = new Set(smooth.map(({ what }) => what));
  return [...smooth, ...sharp.filter(({ what }) => !known.has(what))];
}

function keyOf(finding: Finding): string {
  return `${finding.id} ${finding.column}`;
}

function bracketed(smooth: Finding, sharp: Finding | undefined): Finding {
  if (sharp === undefined || smooth.value === null || sharp.value === null) return smooth;
  const bracket = [smooth.value, sharp.value] as const;
  const verdicts = [smooth.verdict, sharp.verdict];
  if (verdicts.includes('fail') && verdicts.includes('pass')) {
    const fails = smooth.verdict === 'fail' ? 'smooth' : 'sharp';
    const reason = `read ${fails} between its samples the recording breaks it, read the other way it does not`;
    return { ...smooth, verdict: 'inconclusive', bracket, headroom_ratio: null, reason };
  }
  // Of two readings that agree the worse one is told.
  const worse = (sharp.headroom_ratio ?? 0) < (smooth.headroom_ratio ?? 0) ? sharp : smooth;
  return { ...worse, bracket };
}
