/** Whether the trays' charge comes back to where it was after a cycle of the load. */
import type { Span } from '../../events/spans.ts';
import type { Limit } from '../../limits/limit.ts';
import { isInside } from '../judge/tie.ts';
import { cannotArise, notShown, type Reading, unsettled } from '../read/reading.ts';
import { settleTime_s } from './applies.ts';
import { type Case, channelsOf, outSpans, worst } from './case.ts';
import { lowestIn } from './lowest-in.ts';
import { shareOf, without } from './spans.ts';

/** Charge that comes back from a disturbance slows by more than this from one half of the time to the next. */
const slowing_ratio = 0.9;

/** Times of the charge loop after which a disturbance no longer explains a charge that moves. */
const backAfter_count = 3;

/**
 * Change of a tray's lowest charge from the first to the last whole period of the window, per cycle between
 * them; worst tray still in. Lowest of a period, because ends of buckets fall where they like. Without AC and in
 * walk-in trays stand still or refill: cycles are counted in the longest stretch clear of that. What slows after a
 * disturbance is charge on its way back and no drift yet: beyond the limit it settles nothing.
 */
export function readTrayDrift(c: Case, limit: Pick<Limit, 'value' | 'side'>): Reading {
  if (c.period_s === null) return cannotArise('the load has no cycle');
  if (c.scenario.trays.length === 0) return cannotArise('the cabinet has no trays');
  const clear = without(c.result.window, [...c.applies.lost, ...c.applies.walkIn]);
  const longest = worst(clear, (span) => span.to_s - span.from_s);
  if (longest === null) return notShown('no time in the window is clear of AC loss');
  const { from_s, to_s } = longest;
  const cycles = Math.round((to_s - from_s) / c.period_s) - 1;
  if (cycles < 1) {
    return notShown(
      clear.length === 1 && to_s - from_s === c.result.window.to_s - c.result.window.from_s
        ? 'the window holds fewer than two cycles'
        : 'no two cycles of the window are clear of AC loss and walk-in',
    );
  }
  const drifts = channelsOf(c.result, 'tray-charge').flatMap(({ owner, index }) => {
    const first = lowestIn(c.result.recording, index, { from_s, to_s: from_s + c.period_s! });
    const last = lowestIn(c.result.recording, index, { from_s: to_s - c.period_s!, to_s });
    if (outSpans(c, owner).length > 0 || first === null || last === null) return [];
    return [{ owner, index, drift: (last - first) / cycles }];
  });
  const most = worst(drifts, (d) => Math.abs(d.drift));
  if (most === null) return notShown('no tray charge was recorded finely enough');
  const reading = {
    value: Math.abs(most.drift),
    node: most.owner,
    share_seen: shareOf(c.result.window, [longest]),
    reason: most.drift < 0 ? 'downwards, per cycle' : 'upwards, per cycle',
  };
  if (limit.value === null || isInside(reading.value, limit.value, limit.side)) return reading;
  const since_s = disturbedAt(c, longest);
  if (since_s === null || !slows(c, most.index, longest, cycles)) return reading;
  return unsettled(reading, `may come back from what happened at ${Number(since_s.toFixed(2))} s`, 'either');
}

/** The last moment before the stretch's end that still explains a charge that moves; null where there is none. */
function disturbedAt({ applies, result, scenario }: Case, { from_s, to_s }: Span): number | null {
  const moments = [
    ...(result.counters.cycles_to_converge === null ? [0] : []),
    ...applies.starts.map((start) => start.to_s - settleTime_s),
    ...[...applies.lost, ...applies.walkIn].map((span) => span.to_s),
  ].filter((time_s) => time_s < to_s);
  if (moments.length === 0) return null;
  const last_s = Math.max(...moments);
  return last_s + backAfter_count * scenario.firmware.smoothing.charge_time_s > from_s ? last_s : null;
}

/** Whether a tray's charge moves less per cycle in the later half of the stretch; so few cycles may not show it. */
function slows({ result, period_s }: Case, index: number, { from_s, to_s }: Span, cycles: number): boolean {
  const half = Math.floor(cycles / 2);
  if (half < 1) return true;
  const lowAt = (start_s: number): number =>
    lowestIn(result.recording, index, { from_s: start_s, to_s: start_s + period_s! }) ?? Number.NaN;
  const middle = lowAt(from_s + half * period_s!);
  const early = (middle - lowAt(from_s)) / half;
  const late = (lowAt(to_s - period_s!) - middle) / (cycles - half);
  return Math.abs(late) < slowing_ratio * Math.abs(early);
}
