/** The limits that condition a verdict, kind by kind: whoever says it names and counts the same, terminal and page. */
import type { Finding } from './report.ts';

export interface OpenLimits {
  readonly word: 'waived' | 'within the doubt' | 'inconclusive';
  /** At least one. A limit with a column for while batteries carry may be two findings: two limits, as in every list. */
  readonly limits: readonly Finding[];
}

/** Limits of a kind that a sentence names before it counts the rest. */
export const limitsNamed = 3;

export function openLimits(findings: readonly Finding[]): readonly OpenLimits[] {
  const kinds: readonly OpenLimits[] = [
    { word: 'waived', limits: findings.filter(({ verdict }) => verdict === 'waived') },
    { word: 'within the doubt', limits: findings.filter(({ within_doubt }) => within_doubt) },
    { word: 'inconclusive', limits: findings.filter(({ verdict }) => verdict === 'inconclusive') },
  ];
  return kinds.filter(({ limits }) => limits.length > 0);
}
