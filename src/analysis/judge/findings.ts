/** Every limit judged, the binding one first. */
import { carryLimitsOf, limitsOf } from '../../limits/applicable.ts';
import type { Limit } from '../../limits/limit.ts';
import { readLimit } from '../read/read-limit.ts';
import type { Reading } from '../read/reading.ts';
import { type Case, everywhere } from '../record/case.ts';
import { chainTo } from '../record/chain.ts';
import { type Seen, seenOf } from '../record/seen.ts';
import { round } from '../record/stretches.ts';
import { finite } from '../signal/finite.ts';
import { headroomOf } from './headroom.ts';
import { leftOutIn, whyOutside } from './left-out.ts';
import { judgedOutage } from './outage-column.ts';
import type { Finding, FindingVerdict, Outside } from './report.ts';
import { isInside, isTie } from './tie.ts';
import { lapse, ranOut, waive } from './waive.ts';

export function findingsOf(c: Case, seen: Seen): Finding[] {
  const degraded = c.scenario.outage && c.outage.kind !== 'none';
  const limits = limitsOf(c.scenario, degraded);
  const carry = c.result.stays.carry_s > 0 ? carryLimitsOf(c.scenario, degraded) : [];
  const outside = outsideOf(c, seen);
  const judge = (limit: Limit): Finding => judgeAlone(c, limit, seen);
  return bindingFirst(
    [...limits, ...carry]
      .map((limit) => judgedOutage(c, limit, judge))
      .map((finding, k) => ({
        ...finding,
        worst_outside: finding.worst_outside ?? outside([...limits, ...carry][k]!, finding),
      }))
      .map((finding) => waivedOr(c, finding)),
  );
}

/** A limit that fails or cannot be judged is waived where a reviewer says so, as long as that holds. */
function waivedOr({ scenario: { waivers, judged_on } }: Case, judged: Finding): Finding {
  const those = waivers.filter((w) => w.limit === judged.id);
  const holding = those.find((w) => !ranOut(w, judged_on ?? null));
  if (holding !== undefined) return waive(judged, holding);
  return those[0] === undefined ? judged : lapse(judged, those[0]);
}

/**
 * Simple acceptance on what the run shows. What it cannot show passes never: a value beyond its limit that more of the
 * load could only make worse fails; anything else that the window, the recording or the plan leaves open is
 * inconclusive.
 */
function judgeAlone(c: Case, limit: Limit, seen: Seen): Finding {
  if (limit.removed !== null) {
    const reason = `the limit of ${limit.removed} is not judged`;
    return finding(c, limit, { value: null }, 'inconclusive', reason);
  }
  if (limit.value === null && !limit.reportOnly) {
    const reason = `its ${limit.column} column has no number`;
    return finding(c, limit, { value: null, reason }, 'inconclusive', reason);
  }
  const reading = readLimit(c, limit, seen);
  const value = finite(reading.value);
  if (value === null) {
    const reason = reading.reason ?? 'the run gives no finite value';
    const verdict = reading.cannotArise === true ? 'not_applicable' : 'inconclusive';
    return finding(
      c,
      limit,
      { ...reading, value },
      limit.value === null ? 'not_applicable' : verdict,
      reason,
    );
  }
  if (limit.value === null) {
    return finding(c, limit, reading, 'not_applicable', said('reported, not judged', reading.reason, ': '));
  }
  if (reading.reportedOnly === true)
    return finding(c, limit, reading, 'not_applicable', reading.reason ?? null);
  const inside = reading.passes ?? isInside(value, limit.value, limit.side);
  const open = openQuestion(c, limit, reading);
  if (open === null) return finding(c, limit, reading, inside ? 'pass' : 'fail', reading.reason ?? null);
  if (inside || open.truth === 'either') {
    const beyond = inside ? null : 'what was seen of it is beyond the limit';
    return finding(c, limit, reading, 'inconclusive', said(open.because, said(reading.reason, beyond)));
  }
  return finding(
    c,
    limit,
    reading,
    'fail',
    said(reading.reason, `${open.because}; more could only be worse`),
  );
}

type Open = NonNullable<Reading['unsettled']>;

/**
 * What keeps a value from settling its limit, the most general first; null where nothing does. Where one of several
 * reasons leaves open which way the truth lies, it is open.
 */
function openQuestion(c: Case, limit: Limit, reading: Reading): Open | null {
  const open = [unshownIn(c), tooFastFor(c, limit), reading.unsettled ?? null].filter((one) => one !== null);
  const [first] = open;
  if (first === undefined) return null;
  return open.some(({ truth }) => truth === 'either') ? { ...first, truth: 'either' } : first;
}

/** What the run was to show lies outside its window. */
function unshownIn({ result: { unshown } }: Case): Open | null {
  if (unshown.length === 0) return null;
  const more = unshown.length > 1 ? ` (and ${unshown.length - 1} more)` : '';
  return { because: `not shown: ${unshown[0]}${more}`, truth: 'worse' };
}

/** The limit is about faster changes than the recording shows. */
function tooFastFor(
  { demand: { bandwidth_Hz }, scenario: { load } }: Case,
  { needs_Hz }: Limit,
): Open | null {
  if (bandwidth_Hz === null || needs_Hz === null || needs_Hz <= bandwidth_Hz) return null;
  const because = `needs content up to ${needs_Hz} Hz; the recording shows up to ${round(bandwidth_Hz)} Hz`;
  // Edges drawn sharper than the recording shows them may be worse than the load was.
  return { because, truth: load.kind === 'recorded' && load.edges === 'sharp' ? 'either' : 'worse' };
}

/**
 * The worst value anywhere in the window, where the finding has seen only part of it or nothing: what is left out of a
 * judgement is never left unsaid.
 */
function outsideOf(c: Case, { stability }: Seen): (limit: Limit, judged: Finding) => Outside | null {
  const { lost, walkIn, starts } = c.applies;
  if (lost.length + walkIn.length + starts.length === 0) return () => null;
  const leftOut = leftOutIn(c.applies, c.result.window);
  const all = everywhere(c);
  const seen = seenOf(all, stability);
  return (limit, judged) => {
    if (judged.verdict === 'not_applicable' && judged.limit === null) return null;
    const reading = readLimit(all, limit, seen);
    const value = finite(reading.value);
    if (value === null || reading.counts === true) return null;
    if (judged.value !== null && !isWorse(value, judged.value, limit.side)) return null;
    const time_s = finite(reading.time_s);
    return { value, time_s, reason: whyOutside(leftOut, time_s) };
  };
}

function isWorse(value: number, than: number, side: Limit['side']): boolean {
  return !isTie(value, than) && (side === 'upper' ? value > than : value < than);
}

function said(first: string | null | undefined, second: string | null | undefined, by = '; '): string {
  return [first, second].filter((part) => part !== null && part !== undefined && part !== '').join(by);
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
    waived_from: null,
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
    reason: reason === '' ? null : reason,
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
