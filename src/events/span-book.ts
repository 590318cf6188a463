/** Keeps the spans of a run while it goes on; the tick comes from whoever keeps time. */
import type { RecordedSpan, SpanKind, WhatOf } from './spans.ts';

/** Who keeps time. */
export interface Clock {
  readonly tick: number;
}

/**
 * Spans of one track that are kept apart; those that follow are joined to the last, and counted. What events have
 * altered is kept whole: there are no more spans of it than the scenario has events.
 */
const mostApart = 64;

interface OpenSpan {
  readonly from: number;
  /** NaN while it is open. */
  to: number;
  /** Tick at which the part that is open began. */
  since: number;
  count: number;
  held: number;
  amount: number | null;
  moved: number;
}

/** The spans of one kind, unit and `what`, one after another. Bounded however often they begin. */
export class SpanTrack {
  readonly kind: SpanKind;
  readonly who: string;
  readonly what: string;
  private readonly clock: Clock;
  private entries: OpenSpan[] = [];
  /** The last entry; null before the first. */
  private last: OpenSpan | null = null;
  private open = false;
  private readonly mostApart: number;

  constructor(kind: SpanKind, who: string, what: string, clock: Clock) {
    this.kind = kind;
    this.who = who;
    this.what = what;
    this.clock = clock;
    this.mostApart = kind === 'altered' ? Number.POSITIVE_INFINITY : mostApart;
  }

  get holds(): boolean {
    return this.open;
  }

  /** Amount of the span that holds; null where none does or it has none. */
  get amount(): number | null {
    return this.open ? this.last!.amount : null;
  }

  /** It begins now; nothing happens where it already holds. One that ended at this very tick goes on. */
  begin(amount: number | null = null): void {
    if (this.open) return;
    const { tick } = this.clock;
    const { last } = this;
    if (last !== null && last.to === tick && last.amount === amount) this.reopen(last, tick);
    else this.add(amount);
  }

  /** It holds and becomes another: one span ends and the next begins. */
  renew(amount: number): void {
    this.end();
    this.add(amount);
  }

  /** It holds and its amount moves on. */
  move(amount: number): void {
    if (!this.open) return;
    this.last!.amount = amount;
    this.last!.moved = this.clock.tick;
  }

  /** It ends now; nothing happens where it does not hold. */
  end(): void {
    if (!this.open) return;
    const { tick } = this.clock;
    const last = this.last!;
    this.open = false;
    last.to = tick;
    last.held += tick - last.since;
  }

  /** Begins or ends, as it is said to hold. */
  set(holds: boolean): void {
    if (holds === this.open) return;
    if (holds) this.begin();
    else this.end();
  }

  private add(amount: number | null): void {
    const { tick } = this.clock;
    const { last } = this;
    if (last !== null && this.entries.length >= this.mostApart) {
      last.count++;
      last.amount = amount;
      last.moved = tick;
      this.reopen(last, tick);
      return;
    }
    this.last = { from: tick, to: Number.NaN, since: tick, count: 1, held: 0, amount, moved: tick };
    this.entries.push(this.last);
    this.open = true;
  }

  private reopen(entry: OpenSpan, tick: number): void {
    entry.to = Number.NaN;
    entry.since = tick;
    this.open = true;
  }

  /** What was is forgotten; what holds begins now. */
  restart(): void {
    const { open, amount } = this;
    this.entries = [];
    this.last = null;
    this.open = false;
    if (open) this.begin(amount);
  }

  /** Its spans up to `endTick`; those that ended as they began are none. */
  readings(endTick: number, tick_s: number): RecordedSpan[] {
    const { kind, who, what } = this;
    return this.entries.flatMap((entry) => {
      const open = this.open && entry === this.last;
      const to = open ? endTick : entry.to;
      if (to === entry.from && !open) return [];
      const held = entry.held + (open ? endTick - entry.since : 0);
      return {
        kind,
        who,
        what,
        from_s: entry.from * tick_s,
        to_s: to * tick_s,
        open,
        count: entry.count,
        held_s: held * tick_s,
        amount: entry.amount,
        moved_to_s: entry.moved * tick_s,
      };
    });
  }
}

export class SpanBook {
  private readonly clock: Clock;
  /** By kind and unit: a unit has few tracks of one kind. */
  private readonly units = new Map<string, SpanTrack[]>();

  constructor(clock: Clock) {
    this.clock = clock;
  }

  /** The track of a kind, unit and `what`; for who writes often, to be kept. */
  track<K extends SpanKind>(kind: K, who: string, what: WhatOf<K>): SpanTrack {
    const tracks = this.tracksOf(kind, who);
    let found = tracks.find((track) => track.what === what);
    if (found === undefined) {
      found = new SpanTrack(kind, who, what, this.clock);
      tracks.push(found);
    }
    return found;
  }

  /** All tracks of a unit's spans of a kind. */
  tracksOf(kind: SpanKind, who: string): SpanTrack[] {
    const key = `${kind} ${who}`;
    let tracks = this.units.get(key);
    if (tracks === undefined) {
      tracks = [];
      this.units.set(key, tracks);
    }
    return tracks;
  }

  /** Everything forgotten: the way into a converged cycle is no part of the run. What holds begins now. */
  restart(): void {
    for (const tracks of this.units.values()) for (const track of tracks) track.restart();
  }

  /** All spans up to `endTick`, by their beginning. */
  readings(endTick: number, tick_s: number): RecordedSpan[] {
    return [...this.units.values()]
      .flat()
      .flatMap((track) => track.readings(endTick, tick_s))
      .sort((a, b) => a.from_s - b.from_s);
  }
}
