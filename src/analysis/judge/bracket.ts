/**
 * Bracket: a recording does not say how its load moves between two samples. Read smooth (straight lines) and
 * sharp (steps) it gives two runs; each finding then carries both values, and what only one of them keeps is
 * inconclusive. The verdict rests on both.
 */

import type { BasisEntry } from '../basis.ts';
import { bindingFirst } from './findings.ts';
import type { Finding, Report } from './report.ts';
import { concluded } from './verdict.ts';

/** The smooth report with the bracket of each finding; verdict and summary follow. */
export function withBracket(smooth: Report, sharp: Report): Report {
  const other = new Map(sharp.findings.map((finding) => [keyOf(finding), finding]));
  const known = new Set(smooth.findings.map(keyOf));
  const findings = bindingFirst([
    ...smooth.findings.map((finding) => bracketed(finding, other.get(keyOf(finding)))),
    ...sharp.findings
      .filter((finding) => !known.has(keyOf(finding)))
      .map((finding) => onlyOne(finding, 'sharp')),
  ]);
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
  if (sharp === undefined) return onlyOne(smooth, 'smooth');
  const bracket =
    smooth.value === null || sharp.value === null ? null : ([smooth.value, sharp.value] as const);
  if (smooth.verdict !== sharp.verdict) {
    // Of two that differ the one that is no pass counts, and a fail of one reading alone is open.
    if (sharp.verdict === 'fail') return { ...onlyOne(sharp, 'sharp'), bracket };
    if (smooth.verdict === 'fail') return { ...onlyOne(smooth, 'smooth'), bracket };
    const open = [smooth, sharp].find(({ verdict }) => verdict === 'inconclusive');
    const judged = [smooth, sharp].find(({ verdict }) => verdict !== 'not_applicable');
    return { ...(open ?? judged ?? smooth), bracket };
  }
  // Of two readings that agree the worse one is told.
  const worse = (sharp.headroom_ratio ?? 0) < (smooth.headroom_ratio ?? 0) ? sharp : smooth;
  return { ...worse, bracket, within_doubt: smooth.within_doubt || sharp.within_doubt };
}

/** A finding of one reading alone: what fails there is inconclusive, the rest stands. */
function onlyOne(finding: Finding, read: 'smooth' | 'sharp'): Finding {
  if (finding.verdict !== 'fail') return finding;
  const reason = `read ${read} between its samples the recording exceeds it, read the other way it does not`;
  return { ...finding, verdict: 'inconclusive', headroom_ratio: null, within_doubt: false, reason };
}
