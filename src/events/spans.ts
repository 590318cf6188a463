/**
 * Spans: stretches of a run in which something recorded held, beside the log's moments. Everything after the engine
 * reads what happened from here and from the log, never from what the scenario planned.
 *
 * A unit may be in several spans of one kind at a time, told apart by `what` (at its limit of current and slewing);
 * of `out` it is in one at most. What holds at the start of a run begins at 0, what holds at its end is `open`.
 * What the scenario leaves out from the start (a link bar that is not closed) is a parameter and no span.
 */
import { eventKinds } from '../scenario/occurrences.ts';

/** A stretch of time, half open, in seconds. */
export interface Span {
  readonly from_s: number;
  readonly to_s: number;
}

interface SpanMeaning {
  readonly means: string;
  /** Whom it is said of. */
  readonly who: string;
  /** What tells spans of this kind apart; one empty word where the kind says all. */
  readonly what: readonly string[];
}

/** What may hold for a while, of whom it is said, and the words that tell which. */
export const spanKinds = {
  'ac-lost': {
    means: 'the shelf counts its AC as lost; until its walk-in begins or AC is good again without one',
    who: 'shelf',
    what: ['feeder', 'brown-out', 'supply collapse'],
  },
  collapsed: {
    means:
      'the feeder, which gives way, had no voltage left at which it carried what was taken (the amount: that power over the most that it carries); until the unloaded line is back',
    who: 'feeder',
    what: [''],
  },
  'ac-told-lost': {
    means: 'AC loss is signalled to trays and battery shelves',
    who: 'AC',
    what: [''],
  },
  'walk-in': {
    means: 'the shelf takes its load back along its ramp; once more where AC went inside it',
    who: 'shelf',
    what: [''],
  },
  carrying: {
    means: 'the battery shelf carries or hands back, until it sleeps again or can no more',
    who: 'battery shelf',
    what: [''],
  },
  charging: {
    means: 'the battery shelf takes charge, at constant power or constant voltage',
    who: 'battery shelf',
    what: [''],
  },
  out: {
    means: 'the unit, bar or bank is off the bus or serves no more, whoever decided it',
    who: 'shelf, battery shelf, tray, sled, bank, bar',
    what: [
      'taken out', // shelf or tray, by the scenario
      'failed', // shelf, with its blocking element shorted
      'no module', // shelf whose last module has failed
      'bulk empty', // shelf whose DC stage has stopped; also one that waits for its bulk to start
      'resting', // shelf that has tripped and tries again
      'latched', // shelf that has tripped for good
      'tripped', // tray that has stopped itself
      'empty', // battery shelf
      'hot', // battery shelf
      'fault', // battery shelf that does not start or was asked for what its packs have not
      'cut off', // sled, by its under-voltage guard, until its restart
      'switched off', // sled, until its restart
      'shorted', // sled that still hangs on the bus
      'fuse cleared', // sled, after its short
      'opened', // bar, or bank whose strings are all open
      'burnt open', // bank, after its short
    ],
  },
  'at-limit': {
    means: 'one of its limits holds the unit',
    who: 'shelf, battery shelf, tray, sled, `sleds`',
    what: [
      'current', // output stage at its current limit; tray at that of its bus or its capacitors
      'power', // shelf at its output power limit, lasting or derated; tray at its own
      'bulk', // shelf whose limit is folded back with its bulk
      'walk-in', // shelf whose limit is its walk-in ramp
      'soft start', // shelf whose limit is on its way up
      'slew', // output stage whose current, or tray whose power, moves as fast as it can
      'allowance', // shelf whose short-term current allowance is spent
      'bulk voltage', // shelf whose input stage stands because its bulk is too full
      'trim', // shelf or battery shelf whose share trim is at its clamp
      'window', // tray tapered towards the end of its voltage window
      'bank', // tray whose capacitors' resistance gives no more
      'charge', // battery shelf granted less charge than it asks for
      'throttle', // sled that throttles itself on a low voltage
      'brake', // all sleds, by the power brake
    ],
  },
  counting: {
    means:
      'what the shelf bears for a while only (overload, short-term current, power or voltage) counts up, until the count is back at nothing',
    who: 'shelf',
    what: [''],
  },
  'bus-low': {
    means: 'the lowest node is below a level at which batteries start or sleds turn resistive or cut off',
    who: 'bus',
    what: [''],
  },
  unheard: {
    means: 'the task has heard nothing new from its signal for too long',
    who: 'task',
    what: [''],
  },
  frozen: { means: 'smoothing stands still, all trays at zero', who: 'trays', what: [''] },
  short: { means: 'it is shorted and hangs on the bus', who: 'sled, bank', what: [''] },
  altered: {
    means: 'an event has changed a parameter or a signal from what it was, and it stays so',
    who: 'unit, bar, feeder, or `signal` and its name',
    what: eventKinds,
  },
} as const satisfies Readonly<Record<string, SpanMeaning>>;

export type SpanKind = keyof typeof spanKinds;

/** The words that may tell spans of a kind apart. */
export type WhatOf<K extends SpanKind> = (typeof spanKinds)[K]['what'][number];

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
  /** What an event changed it to, in the event's own unit (SI), as it last was; null where there is no amount. */
  readonly amount: number | null;
  /** Until when the amount moved, along a ramp; the beginning where it did not [s]. */
  readonly moved_to_s: number;
}
