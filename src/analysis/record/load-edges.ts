/** Where the load jumps, read off its 10 ms means and told like entries of the log. */
import type { Result } from '../../engine/result.ts';
import type { LogEntry } from '../../events/log.ts';
import { numberText } from '../words/number-text.ts';

/** A move of neighbouring means by this part of rated power is an edge. */
const edge_ratio = 0.05;

/** Edges to within 10 ms; moves of neighbouring means in one direction are one edge. */
export function loadEdges(means: Result['means'], rated_W: number): LogEntry[] {
  const load = means.columns.get('total.load_W');
  if (load === undefined) return [];
  const edges: LogEntry[] = [];
  const threshold_W = edge_ratio * rated_W;
  for (let j = 1; j < load.length; j++) {
    const step = load[j]! - load[j - 1]!;
    if (Math.abs(step) <= threshold_W) continue;
    let end = j;
    while (end + 1 < load.length && (load[end + 1]! - load[end]!) * Math.sign(step) > threshold_W) end++;
    const rise = load[end]! - load[j - 1]!;
    const time_s = means.from_s + j * means.width_s;
    edges.push({
      tick: -1,
      time_s,
      who: 'load',
      what: 'load-edge',
      detail: `${rise > 0 ? 'rises' : 'falls'} by ${numberText(Math.abs(rise), 'W')} within ${numberText((end - j + 2) * means.width_s, 's')}`,
    });
    j = end;
  }
  return edges;
}
