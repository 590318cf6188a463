/**
 * What a finding says of a requirement. Never better than the run's own verdict: what could not be judged is open, and so
 * is all that is met where the numbers failed, the cabinet collapsed or another bound was judged by.
 */
import type { LimitColumn } from '../../scenario/sections/limit-differences.ts';
import type { Finding, Report } from '../judge/report.ts';
import { numberText } from '../words/number-text.ts';
import type { AskedRequirement, ShownIn } from './line.ts';

export type RunGrounds = Pick<Report, 'status' | 'failure' | 'collapse' | 'findings' | 'basis'>;

/** One for each column of the requirement that the run was judged in. */
export function shownIn(requirement: AskedRequirement, run: string, grounds: RunGrounds): ShownIn[] {
  const { judged } = requirement;
  if (judged === null) return [];
  return judged.columns.flatMap((column) => {
    const finding = grounds.findings.find((f) => f.id === judged.limit && f.column === column);
    return finding === undefined ? [] : [shown(requirement, { run, column, finding, grounds })];
  });
}

interface Seen {
  readonly run: string;
  readonly column: LimitColumn;
  readonly finding: Finding;
  readonly grounds: RunGrounds;
}

function shown(requirement: AskedRequirement, { run, column, finding, grounds }: Seen): ShownIn {
  const { verdict, value, limit, node, time_s, reason, waived_from } = finding;
  const inUnit = (SI: number | null): number | null =>
    SI === null || requirement.SI_per_unit === null ? null : SI / requirement.SI_per_unit;
  const [own, bound] = [inUnit(value), inUnit(limit)];
  const inside = requirement.judged?.side === 'upper' ? 1 : -1;
  const margin = own === null || bound === null ? null : inside * (bound - own);
  const as = (
    state: ShownIn['state'],
    because: string | null,
    conditions: readonly string[] = [],
  ): ShownIn => ({
    run,
    column,
    state,
    value: own,
    margin,
    node,
    time_s,
    conditions,
    because,
  });
  switch (verdict) {
    case 'pass': {
      const doubt = doubtOf(requirement, grounds);
      return doubt === null ? as('met', reason, conditionsOf(finding)) : as('open', doubt);
    }
    case 'fail':
      return as('not_met', reason);
    case 'waived':
      return waived_from === 'fail' ? as('not_met', reason ?? 'waived') : as('open', reason ?? 'waived');
    case 'inconclusive':
      return as('open', reason);
    case 'not_applicable':
      // A life is reckoned and not judged by a run: that is no sign that it cannot end.
      return value === null ? as('not_arisen', reason) : as('open', reason);
  }
}

/** What keeps a pass of this run from being an answer; null where nothing does. */
function doubtOf({ altered }: AskedRequirement, { status, failure, collapse }: RunGrounds): string | null {
  if (altered !== null) return `judged by another bound: ${altered}`;
  if (collapse !== null || status === 'collapsed')
    return `the cabinet collapsed: ${collapse ?? failure ?? status}`;
  if (status !== 'ok') return failure ?? `the run ended as ${status}`;
  return null;
}

function conditionsOf({ within_doubt, worst_outside, share_seen_ratio, unit }: Finding): string[] {
  return [
    ...(within_doubt ? ['its margin is within the numerical doubt'] : []),
    ...(worst_outside === null
      ? []
      : [`worse where it was not judged, ${numberText(worst_outside.value, unit)}: ${worst_outside.reason}`]),
    ...(share_seen_ratio !== null && share_seen_ratio < 1
      ? [`seen in ${numberText(share_seen_ratio, 'ratio', 2)} of the judged window`]
      : []),
  ];
}
