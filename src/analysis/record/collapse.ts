/** What took a cabinet down: the phrase that a collapse is headed by. */
import type { Status } from '../../engine/result.ts';
import { effectOf, type LogEntry } from '../../events/log.ts';
import type { Outcome } from '../judge/outcome.ts';

/** Of one kind and this close together: one cause [s]. */
const together_s = 0.02;
const unitsNamed = 4;

/**
 * How the outcome is known, and the last that a source did before: stopped, or came to a limit. Sleds and the bus only
 * show what followed. null where nothing collapsed.
 */
export function collapseOf(
  { kind, because }: Outcome,
  status: Status,
  log: readonly LogEntry[],
): string | null {
  if (kind !== 'collapsed') return null;
  // A bus that left its bounds says so itself; dark sleds leave the run going.
  const what = status === 'collapsed' ? because : `the cabinet collapsed: ${because}`;
  const until_s = firstDark_s(log);
  const before = log.filter(({ time_s, who, what }) => {
    const effect = effectOf(what);
    const isSource = who !== 'bus' && !what.startsWith('sled-');
    return time_s <= until_s && isSource && (effect === 'stops' || effect === 'clamps');
  });
  const last = before.at(-1) ?? log.findLast(({ time_s, what }) => what === 'event' && time_s <= until_s);
  if (last === undefined) return what;
  const alike = before.filter(({ what, time_s }) => what === last.what && last.time_s - time_s <= together_s);
  const units = [...new Set((alike.length > 0 ? alike : [last]).map(({ who }) => who))];
  return `${what}, after ${named(units)}: ${last.detail}`;
}

/** When the first sled went dark; a bus that left its bounds before that has the whole log behind it. */
function firstDark_s(log: readonly LogEntry[]): number {
  return log.find(({ what }) => what === 'sled-cut-off')?.time_s ?? Number.POSITIVE_INFINITY;
}

function named(units: readonly string[]): string {
  return units.length <= unitsNamed
    ? units.join(', ')
    : `${units.slice(0, unitsNamed - 1).join(', ')} and ${units.length - unitsNamed + 1} more`;
}
