/** What saturated or switched before a moment, from the log: plain sentences, oldest first. */
import type { LogEntry, LogKind } from '../events/log.ts';

const most = 8;
/** Farther back than this only stated events and what they switched still explain a moment. */
const recent_s = 2;

const lasting: ReadonlySet<LogKind> = new Set([
  'event',
  'dc-stop',
  'ac-signal',
  'walk-in',
  'tray-stop',
  'battery-start',
  'battery-empty',
  'sled-cut-off',
]);

/**
 * At most eight sentences about the time up to `time_s`. Units that do the same at the same tick share one;
 * of repeats (same unit, same words) the last is kept, so that a hunting limit does not hide its cause.
 */
export function chainTo(log: readonly LogEntry[], time_s: number): string[] {
  const seen = new Set<string>();
  const kept: LogEntry[] = [];
  for (let k = log.length - 1; k >= 0; k--) {
    const entry = log[k]!;
    if (entry.time_s > time_s) continue;
    if (time_s - entry.time_s > recent_s && !lasting.has(entry.what)) continue;
    // Edges of a pulse train differ in nothing but their time: the last one is the one that counts.
    const key = entry.what === 'load-edge' ? entry.what : `${entry.who} ${entry.what}`;
    if (seen.has(key)) continue;
    seen.add(key);
    kept.push(entry);
  }
  kept.reverse();
  const groups: { entry: LogEntry; who: string[] }[] = [];
  for (const entry of kept) {
    const last = groups.at(-1);
    const same =
      last !== undefined &&
      last.entry.tick === entry.tick &&
      last.entry.what === entry.what &&
      last.entry.detail === entry.detail;
    if (same) last.who.push(entry.who);
    else groups.push({ entry, who: [entry.who] });
  }
  return choose(groups).map(
    ({ entry, who }) => `At ${seconds(entry.time_s)} ${who.join(', ')}: ${entry.detail}.`,
  );
}

/** Stated events first, then the newest, back in time order. */
function choose<T extends { entry: LogEntry }>(groups: readonly T[]): T[] {
  if (groups.length <= most) return [...groups];
  const events = groups.filter((g) => g.entry.what === 'event').slice(-3);
  const others = groups.filter((g) => !events.includes(g)).slice(-(most - events.length));
  return groups.filter((g) => events.includes(g) || others.includes(g));
}

function seconds(time_s: number): string {
  return `${Number(time_s.toFixed(4))} s`;
}
