/**
 * What became of the cabinet, beside the verdict: a fault may break limits and be overcome, or break none and
 * leave half of it dark.
 *
 * collapsed  the bus left its bounds, or every sled was dark at one time
 * tripped    at the end something that protects has switched a unit off and it stays off
 * recovered  something stopped, was limited or carried on the way, and all of it is back
 * degraded   at the end a unit is out, a limit holds or batteries carry: served, with less in hand
 * steady     nothing of these
 */
import type { Status } from '../engine/result.ts';
import { type Effect, effectOf, type LogEntry } from '../events/log.ts';
import type { EventSpec } from '../scenario/scenario.ts';
import { chainFrom } from './chain.ts';

export type OutcomeKind = 'steady' | 'degraded' | 'recovered' | 'tripped' | 'collapsed';

export interface Outcome {
  readonly kind: OutcomeKind;
  /** What it is read from, one sentence. */
  readonly because: string;
  /** What led there, in time order, one plain sentence each. */
  readonly chain: readonly string[];
}

export interface Ending {
  readonly status: Status;
  readonly failure: string | null;
  readonly time_s: number;
  readonly log: readonly LogEntry[];
  readonly events: readonly EventSpec[];
  readonly sledCount: number;
}

export function outcomeOf(ending: Ending): Outcome {
  const { log, time_s } = ending;
  const [kind, because, until_s] = judged(ending);
  return { kind, because, chain: kind === 'steady' ? [] : chainFrom(log, until_s ?? time_s) };
}

function judged({ status, failure, log, events, sledCount, time_s }: Ending): [OutcomeKind, string, number?] {
  if (failure !== null || status === 'collapsed') return ['collapsed', failure ?? 'the bus collapsed'];
  const dark = allDark(log, sledCount);
  if (dark !== null) return ['collapsed', `all sleds were off at ${seconds(dark)}`, dark];
  const last = lastEffects(log);
  const told = log.filter(({ what }) => what === 'ac-signal').at(-1);
  const acLost = told?.detail.includes('lost') === true;
  const off = unitsWith(last, 'stops').filter((entry) => !(acLost && entry.what === 'dc-stop'));
  if (off.length > 0) return ['tripped', `${named(off)} off at the end: ${off[0]!.detail}`];
  const carrying = unitsWith(last, 'carries');
  if (carrying.length > 0) return ['degraded', `${named(carrying)} still carry at the end`];
  const held = unitsWith(last, 'clamps');
  if (held.length > 0) return ['degraded', `${named(held)}: ${held[0]!.detail}, to the end`];
  const out = events.filter((event) => lasts(event, events, time_s));
  if (out.length > 0) return ['degraded', `${out.map((e) => `${e.what} ${e.unit}`).join(', ')} to the end`];
  const moved = log.filter(({ what }) => !['note', 'frees'].includes(effectOf(what)));
  if (moved.length > 0 || events.length > 0) {
    const first = (['stops', 'carries', 'clamps'] as const)
      .map((effect) => moved.find(({ what }) => effectOf(what) === effect))
      .find((entry) => entry !== undefined);
    return [
      'recovered',
      first === undefined ? 'what happened is over' : `${first.who}: ${first.detail}; all is back`,
    ];
  }
  return ['steady', 'nothing stopped, was limited or carried'];
}

/** Is the event still there at the end? Events that pass, and losses that return, are not. */
function lasts(event: EventSpec, events: readonly EventSpec[], end_s: number): boolean {
  const back: Partial<Record<EventSpec['what'], EventSpec['what']>> = {
    'ac-loss': 'ac-return',
    'shelf-trip': 'shelf-join',
    'sled-off': 'sled-on',
  };
  if (event.at_s > end_s || Object.values(back).includes(event.what)) return false;
  if (event.for_s !== null) return event.at_s + (event.over_s ?? 0) + event.for_s > end_s;
  const undo = back[event.what];
  return !events.some(
    (e) => e.what === undo && e.at_s > event.at_s && (e.unit === event.unit || e.unit === 'all'),
  );
}

/** The last entry of each unit that says more than a note. */
function lastEffects(log: readonly LogEntry[]): Map<string, LogEntry> {
  const last = new Map<string, LogEntry>();
  for (const entry of log) {
    const effect = effectOf(entry.what);
    if (effect === 'note') continue;
    // A limit that ends frees what a limit held; it does not switch on what was switched off.
    const before = last.get(entry.who);
    const stopped = before !== undefined && effectOf(before.what) === 'stops';
    if (stopped && (effect === 'frees' || effect === 'clamps')) continue;
    last.set(entry.who, entry);
  }
  return last;
}

function unitsWith(last: ReadonlyMap<string, LogEntry>, effect: Effect): LogEntry[] {
  return [...last.values()].filter((entry) => effectOf(entry.what) === effect);
}

/** The first time at which every sled was off, or null. */
function allDark(log: readonly LogEntry[], sledCount: number): number | null {
  const off = new Set<string>();
  for (const { who, what, time_s } of log) {
    if (what === 'sled-cut-off') off.add(who);
    else if (what === 'sled-restart') off.delete(who);
    if (off.size === sledCount && sledCount > 0) return time_s;
  }
  return null;
}

function named(entries: readonly LogEntry[]): string {
  const names = entries.map(({ who }) => who);
  return names.length <= 4
    ? names.join(', ')
    : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
}

function seconds(time_s: number): string {
  return `${Number(time_s.toFixed(4))} s`;
}
