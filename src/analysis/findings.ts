/** Every limit judged, the binding one first. */
import { carryLimitsOf, limitsOf } from '../limits/applicable.ts';
import type { Limit } from '../limits/limit.ts';
import type { Case } from './case.ts';
import { chainTo } from './chain.ts';
import { finite } from './finite.ts';
import { headroomOf } from './headroom.ts';
import { readLimit } from './read-limit.ts';
import type { Reading } from './reading.ts';
import type { Finding, FindingVerdict } from './report.ts';
import type { Seen } from './seen.ts';
import { isInside } from './tie.ts';
import { lapse, ranOut, waive } from './waive.ts';

export function findingsOf(c: Case, seen: Seen): Finding[] {
  const limits = limitsOf(c.scenario);
  const carry = c.result.stays.carry_s > 0 ? carryLimitsOf(c.scenario) : [];
  return bindingFirst([...limits, ...carry].map((limit) => judgeLimit(c, limit, seen)));
}

/** A limit that fails or cannot be judged is waived where a reviewer says so, as long as that holds. */
function judgeLimit(c: Case, limit: Limit, seen: Seen): Finding {
  const judged = judgeAlone(c, limit, seen);
  const { waivers, judged_on = null } = c.scenario;
  const those = waivers.filter((w) => w.limit === limit.id);
  const holding = those.find((w) => !ranOut(w, judged_on));
  if (holding !== undefined) return waive(judged, holding);
  return those[0] === undefined ? judged : lapse(judged, those[0]);
}

function judgeAlone(c: Case, limit: Limit, seen: Seen): Finding {
  if (limit.removed !== null) {
    const reason = `the limit of ${limit.removed} is not judged`;
    return finding(c, limit, { value: null }, 'inconclusive', reason);
  }
  if (limit.value === null && !limit.reportOnly) {
    const reason = `the ${limit.column} column has no number in this row`;
    return finding(c, limit, { value: null, reason }, 'not_applicable', reason);
  }
  const reading = readLimit(c, limit, seen);
  const value = finite(reading.value);
  if (value === null) {
    const reason = reading.reason ?? 'the run gives no finite value';
    return finding(c, limit, { ...reading, value }, 'not_applicable', reason);
  }
  if (limit.value === null) {
    const reason = ['reported, not judged', reading.reason].filter(
      (part) => part !== null && part !== undefined,
    );
    return finding(c, limit, reading, 'not_applicable', reason.join(': '));
  }
  const inside = reading.passes ?? isInside(value, limit.value, limit.side);
  const { bandwidth_Hz } = c.demand;
  if (bandwidth_Hz !== null && limit.needs_Hz !== null && limit.needs_Hz > bandwidth_Hz) {
    const seen = inside ? '' : '; the replay itself already lies beyond the limit';
    const reason = `needs content up to ${limit.needs_Hz} Hz; the recording shows up to ${Number(bandwidth_Hz.toPrecision(4))} Hz${seen}`;
    return finding(c, limit, reading, 'inconclusive', reason);
  }
  if (!inside && reading.tooShort === true) {
    return finding(c, limit, reading, 'inconclusive', reading.reason ?? null);
  }
  return finding(c, limit, reading, inside ? 'pass' : 'fail', reading.reason ?? null);
}

function finding(
  c: Case,
  limit: Limit,
  reading: Reading,
  verdict: FindingVerdict,
  reason: string | null,
): Finding {
  const judged = verdict === 'pass' || verdict === 'fail';
  const time_s = finite(reading.time_s);
  return {
    id: limit.id,
    title: limit.title,
    source: limit.source,
    column: limit.column,
    verdict,
    value: finite(reading.value),
    limit: finite(limit.value),
    unit: limit.unit,
    headroom_ratio: judged ? headroomOf(reading, limit) : null,
    node: reading.node ?? null,
    time_s,
    duration_s: finite(reading.duration_s),
    count: finite(reading.count),
    doubt_ratio: null,
    within_doubt: false,
    bracket: null,
    share_seen_ratio: finite(reading.share_seen),
    worst_outside: reading.outside ?? null,
    reason,
    chain: judged && time_s !== null ? chainTo(c.story, time_s) : [],
  };
}

const rank: Readonly<Record<FindingVerdict, number>> = {
  fail: 0,
  pass: 1,
  inconclusive: 2,
  waived: 3,
  not_applicable: 4,
};

/**
 * Fails, then passes by smallest headroom, then what could not be judged. A count has no headroom: failed it
 * binds before all, passed it comes after the passes that have one.
 */
export function bindingFirst(findings: readonly Finding[]): Finding[] {
  const key = (f: Finding): number =>
    f.headroom_ratio ?? (f.verdict === 'fail' ? Number.NEGATIVE_INFINITY : Number.MAX_VALUE);
  return [...findings].sort((a, b) => {
    if (rank[a.verdict] !== rank[b.verdict]) return rank[a.verdict] - rank[b.verdict];
    const ka = key(a);
    const kb = key(b);
    return ka < kb ? -1 : ka > kb ? 1 : 0;
  });
}
