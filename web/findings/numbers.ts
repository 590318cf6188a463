/** A finding's numbers in words: what was read against what is allowed, and the room that is left. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import { wholePercent, withUnit } from '../numbers.ts';
import { isJudged } from '../ranked.ts';

export function readingOf({ value, limit, unit, count, verdict }: Finding): string {
  if (verdict === 'not_applicable') return '';
  const bound = limit === null ? '' : ` / ${withUnit(limit, unit)}`;
  if (value === null)
    return limit === null ? (count === null ? '' : String(count)) : `limit ${withUnit(limit, unit)}`;
  return `${withUnit(value, unit)}${bound}`;
}

export function headroomOf(finding: Finding): string {
  const { headroom_ratio } = finding;
  if (headroom_ratio === null || !isJudged(finding)) return '';
  if (headroom_ratio === 0) return 'at the limit';
  return headroom_ratio > 0
    ? `headroom ${wholePercent(headroom_ratio)}`
    : `over by ${wholePercent(-headroom_ratio)}`;
}
