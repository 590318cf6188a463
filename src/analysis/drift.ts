/** Whether the trays' charge comes back to where it was after a cycle of the load. */
import { type Case, channelsOf, worst } from './case.ts';
import { absent, type Reading } from './reading.ts';
import { without } from './spans.ts';

/**
 * Change of a tray's lowest charge from the first to the last whole period of the window, per cycle between
 * them; worst tray still in. Lowest of a period, because ends of buckets fall where they like. Without AC and in
 * walk-in trays stand still or refill: cycles are counted in the longest stretch clear of that.
 */
export function readTrayDrift(c: Case): Reading {
  if (c.period_s === null) return absent('the load has no cycle');
  const clear = without(c.result.window, [...c.applies.lost, ...c.applies.walkIn]);
  const longest = worst(clear, (span) => span.to_s - span.from_s);
  if (longest === null) return absent('no time in the window is clear of AC loss');
  const { from_s, to_s } = longest;
  const cycles = Math.round((to_s - from_s) / c.period_s) - 1;
  if (cycles < 1) {
    return absent(
      clear.length === 1 && to_s - from_s === c.result.window.to_s - c.result.window.from_s
        ? 'the window holds fewer than two cycles'
        : 'no two cycles of the window are clear of AC loss and walk-in',
    );
  }
  const out = new Set(c.scenario.events.filter((e) => e.what === 'tray-out').map((e) => e.unit));
  const drifts = channelsOf(c.result, 'tray-charge').flatMap(({ owner, index }) => {
    const first = lowest(c, index, from_s, from_s + c.period_s!);
    const last = lowest(c, index, to_s - c.period_s!, to_s);
    if (out.has(owner) || first === null || last === null) return [];
    return [{ owner, drift: (last - first) / cycles }];
  });
  const most = worst(drifts, (d) => Math.abs(d.drift));
  if (most === null) return absent('no tray charge was recorded finely enough');
  return {
    value: Math.abs(most.drift),
    node: most.owner,
    reason: most.drift < 0 ? 'downwards, per cycle' : 'upwards, per cycle',
  };
}

/** Of the recorded buckets that lie inside; null where none does. */
function lowest(c: Case, index: number, from_s: number, to_s: number): number | null {
  const { edges_s, min, bucketCount } = c.result.recording;
  let low: number | null = null;
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const value = min[index]![b]!;
    if (low === null || value < low) low = value;
  }
  return low;
}
