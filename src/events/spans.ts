/**
 * Spans: stretches of a run in which something recorded held, beside the log's moments. Everything after the engine
 * reads what happened from here and from the log, never from what the scenario planned.
 */

/** A stretch of time, half open, in seconds. */
export interface Span {
  readonly from_s: number;
  readonly to_s: number;
}

/** What may hold for a while, and of whom it is said. */
export const spanKinds = {
  'ac-lost': 'a shelf counts its AC as lost; until its walk-in begins or AC is good again',
  'ac-told-lost': 'trays and battery shelves are told that AC is lost',
  'walk-in': 'a shelf takes its load back along its ramp',
  carrying: 'a battery shelf carries or hands back, until it sleeps again or can no more',
  charging: 'a battery shelf takes charge',
  out: 'a unit, bar or bank is off the bus or serves no more, whoever decided it',
  short: 'a sled or a bank is shorted',
  'at-limit': 'a unit is held by one of its limits: current, power, slew, charge, trim, allowance',
  altered: 'an event has changed a parameter or a signal from what it was, and it stays so',
} as const satisfies Readonly<Record<string, string>>;

export type SpanKind = keyof typeof spanKinds;

export interface RecordedSpan extends Span {
  readonly kind: SpanKind;
  /** Unit, bar, feeder or signal. */
  readonly who: string;
  /** Which limit, which event; empty where the kind says all. */
  readonly what: string;
  /** It still held when the run ended. */
  readonly open: boolean;
  /** How often it began within this span: above 1 where a unit chattered and the spans were joined. */
  readonly count: number;
  /** Time in it; shorter than the span where spans were joined [s]. */
  readonly held_s: number;
}

/** Spans of one kind, unit and `what` that are kept apart; those that follow are joined to the last, and counted. */
const mostApart = 64;

interface Entry {
  readonly kind: SpanKind;
  readonly who: string;
  readonly what: string;
  from: number;
  /** NaN while it is open. */
  to: number;
  /** Tick at which the part that is open began. */
  since: number;
  count: number;
  held: number;
}

/** Keeps the spans of a run; ticks come from whoever keeps time. Bounded however often a unit chatters. */
export class SpanBook {
  private readonly entries: Entry[] = [];
  private readonly latest = new Map<string, Entry>();
  private readonly kept = new Map<string, number>();

  /** It begins at `tick`; nothing happens where it already holds. */
  begin(kind: SpanKind, who: string, what: string, tick: number): void {
    const key = `${kind} ${who} ${what}`;
    const last = this.latest.get(key);
    if (last !== undefined && Number.isNaN(last.to)) return;
    const count = this.kept.get(key) ?? 0;
    if (last !== undefined && (count >= mostApart || last.to === tick)) {
      if (last.to !== tick) last.count++;
      last.to = Number.NaN;
      last.since = tick;
      return;
    }
    const entry = { kind, who, what, from: tick, to: Number.NaN, since: tick, count: 1, held: 0 };
    this.entries.push(entry);
    this.latest.set(key, entry);
    this.kept.set(key, count + 1);
  }

  /** It ends at `tick`; nothing happens where it does not hold. Without `what`: whichever of them holds. */
  end(kind: SpanKind, who: string, what: string | null, tick: number): void {
    if (what !== null) {
      close(this.latest.get(`${kind} ${who} ${what}`), tick);
      return;
    }
    for (const entry of this.latest.values())
      if (entry.kind === kind && entry.who === who) close(entry, tick);
  }

  /** Whether it holds now. */
  holds(kind: SpanKind, who: string, what = ''): boolean {
    const last = this.latest.get(`${kind} ${who} ${what}`);
    return last !== undefined && Number.isNaN(last.to);
  }

  /** Everything forgotten: the way into a converged cycle is no part of the run. Spans that hold begin at `tick`. */
  restart(tick: number): void {
    const going = this.entries.filter((entry) => Number.isNaN(entry.to));
    this.entries.length = 0;
    this.latest.clear();
    this.kept.clear();
    for (const { kind, who, what } of going) this.begin(kind, who, what, tick);
  }

  /** All spans up to `endTick`, by their beginning. */
  readings(endTick: number, tick_s: number): RecordedSpan[] {
    return this.entries
      .map(({ kind, who, what, from, to, since, count, held }) => {
        const open = Number.isNaN(to);
        const all = held + (open ? endTick - since : 0);
        return {
          kind,
          who,
          what,
          from_s: from * tick_s,
          to_s: (open ? endTick : to) * tick_s,
          open,
          count,
          held_s: all * tick_s,
        };
      })
      .sort((a, b) => a.from_s - b.from_s);
  }
}

function close(entry: Entry | undefined, tick: number): void {
  if (entry === undefined || !Number.isNaN(entry.to)) return;
  entry.to = tick;
  entry.held += tick - entry.since;
}
