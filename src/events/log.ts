/** What happened in a run, in time order: events, mode changes, firmware decisions. */
import { SpanBook } from './span-book.ts';
import type { SpanKind, WhatOf } from './spans.ts';

export interface LogEntry {
  readonly tick: number;
  readonly time_s: number;
  /** Unit, bar, node or feeder. */
  readonly who: string;
  readonly what: LogKind;
  /** Plain words with numbers and units, for example `bulk at 330.0 V, DC stage stops`. */
  readonly detail: string;
}

/**
 * What an entry of a kind does to whom it names: the outcome of a run is read from the last of these per unit.
 * `stops`/`starts`: serves no more, or again; `carries`/`rests`: a battery shelf; `clamps`/`frees`: a limit holds,
 * or no more; `note`: nothing of these.
 */
export type Effect = 'note' | 'stops' | 'starts' | 'carries' | 'rests' | 'clamps' | 'frees';

const kinds = {
  event: 'note', // one the scenario states
  'load-edge': 'note', // the load jumps
  'limit-on': 'clamps', // a current, power or slew limit takes hold
  'limit-off': 'frees',
  'bus-low': 'clamps', // the lowest node of the bus falls below a level
  'bus-back': 'frees',
  'dc-stop': 'stops', // a shelf's DC stage stops: its bulk is empty
  'dc-restart': 'starts',
  'bulk-high': 'note', // a shelf's input stage stops, its bulk being too full, or works on
  'shelf-trip': 'stops', // a shelf's guard stops it; it will try again
  'shelf-latch': 'stops', // … for good
  'soft-start': 'note', // a soft start waits or ends
  modules: 'note', // modules of a shelf fail or are back
  'peak-spent': 'clamps', // a short-term current limit's allowance
  'peak-back': 'frees',
  derated: 'clamps', // a unit without coolant
  cooled: 'frees',
  'current-reversal': 'note', // a shelf draws current from the bus
  'supply-collapse': 'note', // no voltage is left at which a feeder that gives way carries its shelves
  'supply-back': 'note', // its line, unloaded, is back
  'brown-out': 'note', // the line is too low: a shelf counts AC as lost, or back
  'no-source': 'note', // no output stage is left to hold the bus
  'ac-signal': 'note', // AC lost or good, as trays and batteries are told
  'walk-in': 'note', // a shelf's walk-in begins or ends
  'tray-stop': 'clamps',
  'tray-start': 'frees',
  'tray-full': 'clamps', // the voltage window's taper takes hold
  'tray-infeasible': 'clamps', // asked for more than the bank can give
  'tray-trip': 'stops', // a tray stops itself: outside its voltage window, or without an operating point
  'tray-assist': 'note', // trays carry load until the batteries do
  'tray-turn': 'note', // commands hold at zero while they change their sign
  'signal-lost': 'clamps', // a task has heard nothing new for too long
  'signal-back': 'frees',
  'trim-clamp': 'clamps', // a unit's share trim is at its clamp
  'battery-start': 'note',
  'battery-carry': 'carries',
  'battery-hand-back': 'note',
  'battery-sleep': 'rests',
  'battery-empty': 'stops', // gave all it has, or never had charge
  'battery-hot': 'stops', // its packs are at their highest temperature
  'battery-fault': 'stops', // does not start, or was asked for power that its packs have not
  'battery-wait': 'rests', // waits its own time before it charges
  'battery-charge': 'rests', // takes charge: constant power, then constant voltage
  'charge-limit': 'note', // what is granted to charging changes by more than a tenth
  'battery-full': 'rests',
  'sled-cut-off': 'stops',
  'sled-restart': 'starts',
  'sled-out': 'stops', // its contact opens: switched off, or its fuse has cleared
  'sled-charged': 'note', // plugged in, its input capacitors are charged
  'sled-throttle': 'clamps',
  'sled-release': 'frees',
  'brake-raised': 'note', // the supervisor decides to brake
  'brake-on': 'clamps', // sleds are held to a share of their demand
  'brake-off': 'frees',
} as const satisfies Readonly<Record<string, Effect>>;

export type LogKind = keyof typeof kinds;

export function effectOf(kind: LogKind): Effect {
  return kinds[kind];
}

/** Takes notes while a run goes on; time comes from the clock it is given, so that nobody passes ticks around. */
export class Log {
  readonly entries: LogEntry[] = [];
  /** What held for a while, beside the moments. */
  readonly spans = new SpanBook(this);
  /** Tick of the present moment, kept by the engine. */
  tick = 0;
  private readonly tick_s: number;

  constructor(tick_s: number) {
    this.tick_s = tick_s;
  }

  note(who: string, what: LogKind, detail: string): void {
    this.entries.push({ tick: this.tick, time_s: this.tick * this.tick_s, who, what, detail });
  }

  /** From now on it holds: a span begins. */
  begins<K extends SpanKind>(kind: K, who: string, what: WhatOf<K>): void {
    this.spans.track(kind, who, what).begin();
  }

  /** From now on this holds of a unit and nothing else of its kind does. */
  becomes<K extends SpanKind>(kind: K, who: string, what: WhatOf<K>): void {
    for (const track of this.spans.tracksOf(kind, who)) if (track.what !== what) track.end();
    this.begins(kind, who, what);
  }

  /** From now on nothing of this kind holds of a unit. */
  ends(kind: SpanKind, who: string): void {
    for (const track of this.spans.tracksOf(kind, who)) track.end();
  }
}
