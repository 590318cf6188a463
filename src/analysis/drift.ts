/** Whether the trays' charge comes back to where it was after a cycle of the load. */
import { type Case, channelsOf, outSpans, worst } from './case.ts';
import { lowestIn } from './lowest-in.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';
import { shareOf, without } from './spans.ts';

/**
 * Change of a tray's lowest charge from the first to the last whole period of the window, per cycle between
 * them; worst tray still in. Lowest of a period, because ends of buckets fall where they like. Without AC and in
 * walk-in trays stand still or refill: cycles are counted in the longest stretch clear of that.
 */
export function readTrayDrift(c: Case): Reading {
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
    return [{ owner, drift: (last - first) / cycles }];
  });
  const most = worst(drifts, (d) => Math.abs(d.drift));
  if (most === null) return notShown('no tray charge was recorded finely enough');
  return {
    value: Math.abs(most.drift),
    node: most.owner,
    share_seen: shareOf(c.result.window, [longest]),
    reason: most.drift < 0 ? 'downwards, per cycle' : 'upwards, per cycle',
  };
}
