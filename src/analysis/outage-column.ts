/**
 * The degraded column where an outage is stated: what passes by it and not by the normal column must lie where
 * something was out.
 */
import { limitsOf } from '../limits/applicable.ts';
import type { Limit } from '../limits/limit.ts';
import type { Case } from './case.ts';
import type { Finding } from './report.ts';
import { holds, shareOf } from './spans.ts';

/** Over less of the window than this an outage does not explain a value of the whole window. */
const most_ratio = 0.5;

/** Judges a limit; one of the degraded column by the normal one too, where the wider one alone lets it pass. */
export function judgedOutage(c: Case, limit: Limit, judge: (limit: Limit) => Finding): Finding {
  const judged = judge(limit);
  if (limit.column !== 'degraded' || judged.verdict !== 'pass') return judged;
  const normal = limitsOf(c.scenario, false).find(({ id }) => id === limit.id);
  if (normal === undefined || normal.value === null || normal.value === limit.value) return judged;
  const strict = judge(normal);
  if (strict.verdict !== 'fail') return judged;
  const { spans, kind, who } = c.outage;
  const explained =
    strict.time_s !== null ? holds(spans, strict.time_s) : shareOf(c.result.window, spans) >= most_ratio;
  if (!explained) {
    return { ...strict, reason: `${strict.reason ?? 'beyond the normal column'}; nothing was out then` };
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
