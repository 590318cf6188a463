/**
 * The degraded column where an outage is stated: what passes by it and not by the normal column must lie where
 * something was out.
 */
import { carryLimitsOf, limitsOf } from '../../limits/applicable.ts';
import type { Limit } from '../../limits/limit.ts';
import type { Case } from '../record/case.ts';
import { once } from '../record/once.ts';
import { holds, shareOf } from '../record/spans.ts';
import type { Stated } from '../record/stated.ts';
import type { Finding } from './report.ts';

/** The limits that hold where nothing is out, by their ids. */
const withoutOutage = once((scenario: Stated) => ({
  normal: byId(limitsOf(scenario, false)),
  carry: byId(carryLimitsOf(scenario, false)),
}));

function byId(limits: readonly Limit[]): ReadonlyMap<string, Limit> {
  return new Map(limits.map((limit) => [limit.id, limit]));
}

/** Over less of the window than this an outage does not explain a value of the whole window. */
const most_ratio = 0.5;

/**
 * Judges a limit; one that the outage has widened also by the number it has without, where the wider one alone lets it
 * pass. While batteries carry in an outage that is the wider of two columns.
 */
export function judgedOutage(c: Case, limit: Limit, judge: (limit: Limit) => Finding): Finding {
  const judged = judge(limit);
  if (judged.verdict !== 'pass') return judged;
  const normal = withoutOutage(c.scenario)[limit.column === 'carry' ? 'carry' : 'normal'].get(limit.id);
  if (normal === undefined || normal.value === null || normal.value === limit.value) return judged;
  const strict = judge(normal);
  if (strict.verdict !== 'fail') return judged;
  const { kind, who } = c.outage;
  const spans = c.outage.spansFor(limit.quantity);
  const explained =
    strict.time_s !== null ? holds(spans, strict.time_s) : shareOf(c.result.window, spans) >= most_ratio;
  if (!explained) {
    return {
      ...strict,
      reason: `${strict.reason ?? 'beyond the normal column'}; nothing that bears on it was out then`,
    };
  }
  if (kind === 'real') return judged;
  const stated = `keeps the degraded column only; that ${who.join(', ')} counts as an outage is stated, nothing was out`;
  return {
    ...judged,
    verdict: 'inconclusive',
    headroom_ratio: null,
    reason: judged.reason === null ? stated : `${stated}; ${judged.reason}`,
  };
}
