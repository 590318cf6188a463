/** What saturated or switched before a moment, from the log: plain sentences, oldest first. */
import type { LogEntry, LogKind } from '../../events/log.ts';

const most = 8;
const mostFirsts = 12;
/** Farther back than this only stated events and what they switched still explain a moment. */
const recent_s = 2;
/** Units that do the like within this time share a sentence. */
const together_s = 1e-3;

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
 * At most eight sentences about the time up to `time_s`. Units that do the like within a millisecond share one;
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
  return choose(grouped(kept)).map(sentence);
}

/**
 * How it began: the first entry of each unit and kind up to `until_s`, in time order, alike ones together; at most
 * twelve sentences, stated events always among them.
 */
export function chainFrom(log: readonly LogEntry[], until_s: number): string[] {
  const seen = new Set<string>();
  const firsts = log.filter(({ who, what, time_s }) => {
    const key = `${who} ${what}`;
    if (what === 'load-edge' || time_s > until_s || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  const groups = grouped(firsts);
  const stated = groups.filter(({ entry }) => entry.what === 'event').slice(0, mostFirsts);
  const others = groups.filter(({ entry }) => entry.what !== 'event').slice(0, mostFirsts - stated.length);
  return groups.filter((g) => stated.includes(g) || others.includes(g)).map(sentence);
}

/** Units that do the like within a moment, as one. */
function grouped(entries: readonly LogEntry[]): ChainGroup[] {
  const groups: ChainGroup[] = [];
  for (const entry of entries) {
    const last = groups.at(-1);
    const alike = last?.entry.what === entry.what && entry.time_s - last.entry.time_s <= together_s;
    if (last !== undefined && alike) {
      last.who.push(entry.who);
      last.same &&= entry.detail === last.entry.detail;
    } else {
      groups.push({ entry, who: [entry.who], same: true });
    }
  }
  return groups;
}

/** Entries of one kind within a moment; `same`: all with the first one's words. */
interface ChainGroup {
  readonly entry: LogEntry;
  readonly who: string[];
  same: boolean;
}

function sentence({ entry, who, same }: ChainGroup): string {
  const named = who.length <= 4 ? who.join(', ') : `${who.slice(0, 3).join(', ')} and ${who.length - 3} more`;
  return `At ${seconds(entry.time_s)} ${named}: ${entry.detail}${same ? '' : ' (the first)'}.`;
}

/** Stated events first, then the newest, back in time order. */
function choose(groups: readonly ChainGroup[]): ChainGroup[] {
  if (groups.length <= most) return [...groups];
  const events = groups.filter((g) => g.entry.what === 'event').slice(-3);
  const others = groups.filter((g) => !events.includes(g)).slice(-(most - events.length));
  return groups.filter((g) => events.includes(g) || others.includes(g));
}

/** The moment that a sentence of a chain begins with, to the digits it says; null of any other text. */
export function momentSaid(sentence: string): number | null {
  const said = /^At ([\d.]+) s /.exec(sentence);
  return said === null ? null : Number(said[1]);
}

function seconds(time_s: number): string {
  return `${Number(time_s.toFixed(4))} s`;
}
