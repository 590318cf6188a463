/** The findings in the order in which the page shows them, each with its number in it. */
import type { Finding, FindingVerdict } from '../src/analysis/judge/report.ts';

export interface Ranked {
  /** From 1. */
  readonly number: number;
  readonly finding: Finding;
}

const rank: Readonly<globalThis.Record<FindingVerdict, number>> = {
  fail: 0,
  waived: 1,
  pass: 2,
  not_applicable: 3,
  inconclusive: 4,
};

/** What fails, then what is waived, then passes as judged (binding first), what does not arise, what is open. */
export function ranked(findings: readonly Finding[]): readonly Ranked[] {
  return [...findings]
    .sort((a, b) => rank[a.verdict] - rank[b.verdict])
    .map((finding, k) => ({ number: k + 1, finding }));
}

export function isJudged({ verdict }: Pick<Finding, 'verdict'>): boolean {
  return verdict === 'pass' || verdict === 'fail' || verdict === 'waived';
}
