/**
 * What became of the cabinet, beside the verdict: a fault may break limits and be overcome, or break none and
 * leave half of it dark. Read from what the run recorded, never from what the scenario planned.
 *
 * collapsed  the bus left its bounds, or every sled was dark at one time and not all were switched off
 * tripped    at the end something that protects has switched a unit off and it stays off
 * oscillating  a device swings by itself, sustained (swings/oscillating.ts)
 * recovered  something stopped, was altered, was limited or carried on the way, and all of it is back
 * degraded   at the end a unit is out or altered, a limit holds or batteries carry: served, with less in hand
 * steady     nothing of these
 */
import type { Status } from '../../engine/result.ts';
import { effectOf, type LogEntry } from '../../events/log.ts';
import type { RecordedSpan, SpanKind, WhatOf } from '../../events/spans.ts';
import { freeOfLimit_s } from '../../firmware/shelf/power-hold.ts';
import { chainFrom } from '../record/chain.ts';
import { holds } from '../record/spans.ts';

export type OutcomeKind = 'steady' | 'oscillating' | 'degraded' | 'recovered' | 'tripped' | 'collapsed';

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
  readonly spans: readonly RecordedSpan[];
  readonly sledCount: number;
  /** The largest oscillation in words, or null. */
  readonly oscillation: string | null;
}

/** What a unit's own protection, or a fuse, has switched off; the rest of `out` was decided elsewhere. */
const protects: ReadonlySet<string> = new Set([
  'bulk empty',
  'resting',
  'latched',
  'tripped',
  'empty',
  'hot',
  'fault',
  'cut off',
  'fuse cleared',
] satisfies WhatOf<'out'>[]);

/**
 * Limits that belong to how a unit works: a slew at every edge, a start on its way, a charge that waits its turn, an
 * input stage that stands while its bulk is full.
 */
const ordinary: ReadonlySet<string> = new Set([
  'slew',
  'walk-in',
  'soft start',
  'charge',
  'bulk voltage',
] satisfies WhatOf<'at-limit'>[]);

/** Kinds that are no event of the cabinet by themselves: charging; the word that goes with an AC loss. */
const quiet: ReadonlySet<SpanKind> = new Set<SpanKind>(['charging', 'ac-told-lost']);

/** Kinds by which a unit is held while it serves. */
const holding: ReadonlySet<SpanKind> = new Set<SpanKind>(['at-limit', 'bus-low', 'unheard', 'frozen']);

export function outcomeOf(ending: Ending): Outcome {
  const { log, time_s } = ending;
  const [kind, found, until_s] = judged(ending);
  const supply = suppliesLost(ending.spans);
  const because = supply === null ? found : `${supply}; ${found}`;
  return { kind, because, chain: kind === 'steady' ? [] : chainFrom(log, until_s ?? time_s) };
}

function judged(ending: Ending): [OutcomeKind, string, number?] {
  const { status, failure, log, spans, sledCount, time_s, oscillation } = ending;
  if (failure !== null || status === 'collapsed') return ['collapsed', failure ?? 'the bus collapsed'];
  const dark = allDark(log, spans, sledCount);
  if (dark !== null) return ['collapsed', `all sleds were off at ${seconds(dark)}`, dark];
  const told = spans.filter(
    ({ kind, what }) => !quiet.has(kind) && !(kind === 'at-limit' && ordinary.has(what)),
  );
  const last = told.filter((span) => lasts(span, time_s));
  const of = (kind: SpanKind): RecordedSpan[] => last.filter((span) => span.kind === kind);
  const waits = new Set([...of('ac-lost'), ...of('walk-in')].map(({ who }) => who));
  // A shelf whose bulk is empty for want of AC is out, not tripped.
  const off = of('out').filter(
    ({ who, what }) => protects.has(what) && !(what === 'bulk empty' && waits.has(who)),
  );
  if (off.length > 0)
    return ['tripped', `${named(off)} off at the end: ${detailOf(off[0]!, log, ['stops'])}`];
  if (oscillation !== null) return ['oscillating', oscillation];
  const carrying = of('carrying');
  if (carrying.length > 0) return ['degraded', `${named(carrying)} still carry at the end`];
  const firstHeld = last.find(({ kind }) => holding.has(kind));
  if (firstHeld !== undefined) {
    const alike = last.filter(({ kind, what }) => kind === firstHeld.kind && what === firstHeld.what);
    return ['degraded', `${named(alike)}: ${detailOf(firstHeld, log, ['clamps'])}, to the end`];
  }
  if (last.length > 0) return ['degraded', `${standing(last)} to the end`];
  if (told.length === 0) return ['steady', 'nothing stopped, was limited or carried'];
  const first = (['stops', 'carries', 'clamps'] as const)
    .map((effect) => log.find(({ what }) => effectOf(what) === effect))
    .find((entry) => entry !== undefined);
  return [
    'recovered',
    first === undefined ? 'what happened is over' : `${first.who}: ${first.detail}; all is back`,
  ];
}

/** Feeders whose supply collapsed, and when the first did: it leads, whoever has saved the bus. */
export function suppliesLost(spans: readonly RecordedSpan[]): string | null {
  const lost = spans.filter(({ kind }) => kind === 'collapsed');
  if (lost.length === 0) return null;
  return `the supply of ${[...new Set(lost.map(({ who }) => who))].join(' and ')} collapsed at ${seconds(Math.min(...lost.map(({ from_s }) => from_s)))}`;
}

/** Does it hold at the end? A limit that let go within the last moments may take hold again in the next. */
function lasts({ kind, open, to_s }: RecordedSpan, end_s: number): boolean {
  return open || (kind === 'at-limit' && Math.abs(end_s - to_s) < freeOfLimit_s);
}

/** What the log says of a unit's span, or the span's own word. */
function detailOf(span: RecordedSpan, log: readonly LogEntry[], effects: readonly string[]): string {
  const entry = log.findLast(({ who, what }) => who === span.who && effects.includes(effectOf(what)));
  return entry?.detail ?? (span.kind === 'at-limit' ? `at its limit (${span.what})` : span.what || span.kind);
}

/** What stands at the end, alike ones together: `bank-out K1, S3 taken out`. */
function standing(spans: readonly RecordedSpan[]): string {
  const groups = new Map<string, RecordedSpan[]>();
  for (const span of spans) {
    const key = `${span.kind} ${span.what}`;
    groups.set(key, [...(groups.get(key) ?? []), span]);
  }
  return [...groups.values()]
    .map((group) => {
      const { kind, what } = group[0]!;
      if (kind === 'altered') return `${what} ${named(group).replaceAll('signal ', '')}`;
      if (kind === 'out') return `${named(group)} ${what}`;
      return `${kind === 'ac-lost' ? 'AC lost at' : kind} ${named(group)}`;
    })
    .join(', ');
}

/**
 * The first time at which every sled was off, shorted ones included, one of them at least by its own guard; or null.
 * From the log, which tells of every cut-off and restart.
 */
function allDark(log: readonly LogEntry[], spans: readonly RecordedSpan[], sledCount: number): number | null {
  const off = new Map<string, LogEntry['what']>();
  const shorted = spans.filter(({ kind, what }) => kind === 'out' && what === 'shorted');
  for (const { who, what, time_s } of log) {
    if (what === 'sled-cut-off' || what === 'sled-out') off.set(who, what);
    else if (what === 'sled-restart') off.delete(who);
    else continue;
    if (![...off.values()].includes('sled-cut-off')) continue;
    const more = shorted.filter((span) => !off.has(span.who) && holds([span], time_s));
    if (off.size + more.length === sledCount) return time_s;
  }
  return null;
}

function named(spans: readonly RecordedSpan[]): string {
  const names = [...new Set(spans.map(({ who }) => who))];
  return names.length <= 4
    ? names.join(', ')
    : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
}

function seconds(time_s: number): string {
  return `${Number(time_s.toFixed(4))} s`;
}
