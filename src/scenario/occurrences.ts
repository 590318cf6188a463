/**
 * What may happen in a run, declared once: to which units, with what amount, whether it passes by itself and
 * whether it comes slowly. The reader validates against this table; `src/engine/happen/` carries it out.
 */

import type { ParameterSpec } from './parameter.ts';
import type { Family } from './tables.ts';
import { type FieldSpec, quantity } from './text/field.ts';

/** Whom something may happen to. `signals` are the entries of the signal table, by task. */
export type EventTarget = Family | 'links' | 'bars' | 'signals' | 'coolant';

/** The word in front of an amount: `to 70 %` sets, `by 1 %` adds, `count 2` counts. */
export type AmountWord = 'to' | 'by' | 'count';

export interface Occurrence {
  readonly means: string;
  readonly target: EventTarget;
  /** `all` may stand for every unit of the target. */
  readonly all?: true;
  readonly amount?: { readonly word: AmountWord; readonly spec: ParameterSpec };
  /** `for 0.5 s`: it is over after that. `must`: without an end it makes no sense. */
  readonly passes?: 'may' | 'must';
  /** `over 10 s`: it comes as a ramp. */
  readonly ramps?: true;
}

const amount = (
  word: AmountWord,
  spec: Omit<ParameterSpec, 'symbol'>,
): NonNullable<Occurrence['amount']> => ({
  word,
  spec: { symbol: '—', ...spec },
});

const share = (word: AmountWord, means: string, min: number, max: number, fallback?: number) =>
  amount(word, { dimension: 'ratio', means, min, max, ...(fallback === undefined ? {} : { fallback }) });

const table = {
  'shelf-trip': { target: 'shelves', means: 'the shelf stops for good' },
  'shelf-join': { target: 'shelves', means: 'a shelf that tripped or stood by starts softly and shares' },
  'module-out': {
    target: 'shelves',
    means: 'modules of the shelf fail; the rest carry on',
    amount: amount('count', {
      dimension: 'count',
      means: 'modules that fail',
      min: 1,
      max: 100,
      fallback: 1,
    }),
    passes: 'may',
  },
  'set-point-shift': {
    target: 'shelves',
    means: "the shelf's set point moves",
    amount: share('by', 'of the set point', -0.2, 0.2),
    passes: 'may',
    ramps: true,
  },
  'sensor-shift': {
    target: 'shelves',
    means: "the shelf's current sensor reads wrong by this share",
    amount: share('by', 'of the current', -1, 1),
    passes: 'may',
    ramps: true,
  },
  'share-out': {
    target: 'shelves',
    means: 'the shelf leaves the share: droop alone, its trim held',
    passes: 'may',
  },
  'reverse-feed': {
    target: 'shelves',
    means: 'the shelf fails with its blocking element shorted: it stops and draws this current from the bus',
    amount: amount('to', {
      dimension: 'current',
      means: 'current it draws',
      min: 0,
      max: 1e6,
      exclusive: true,
    }),
    passes: 'may',
  },
  'coolant-loss': {
    target: 'coolant',
    all: true,
    means: 'the unit derates to this share of its power',
    amount: share('to', 'of its power', 0, 1),
    passes: 'may',
    ramps: true,
  },
  'tray-out': { target: 'trays', means: 'the tray stops for good' },
  'tray-stuck': {
    target: 'trays',
    means: 'the tray holds this power whatever its command (negative: it charges)',
    amount: amount('to', { dimension: 'power', means: 'power into the bus', min: -1e6, max: 1e6 }),
    passes: 'may',
  },
  'charge-shift': {
    target: 'trays',
    means: "the tray's measured state of charge is off by this share of its window",
    amount: share('by', 'of the window', -1, 1),
    passes: 'may',
    ramps: true,
  },
  'bank-out': {
    target: 'banks',
    means: 'strings of the bank open: this share of its capacitance is gone',
    amount: share('by', 'of the capacitance', 0, 1, 1),
  },
  'bank-short': {
    target: 'banks',
    means: 'the bank shorts: the bus feeds its resistance alone',
    passes: 'may',
  },
  'battery-fail': { target: 'batteries', all: true, means: 'the shelf does not start when it should' },
  'battery-late': {
    target: 'batteries',
    all: true,
    means: 'the shelf starts late by this much',
    amount: amount('by', { dimension: 'time', means: 'beyond its start time', min: 0, max: 10, ticks: true }),
  },
  'bar-out': { target: 'links', means: 'the link bar or the tie opens' },
  'joint-aged': {
    target: 'bars',
    means: "the bar's resistance, joints included, becomes this",
    amount: amount('to', {
      dimension: 'resistance',
      means: 'loop resistance',
      min: 0,
      max: 1,
      exclusive: true,
    }),
    ramps: true,
  },
  'ac-loss': { target: 'feeders', all: true, means: 'AC goes' },
  'ac-return': { target: 'feeders', all: true, means: 'AC comes back' },
  'ac-sag': {
    target: 'feeders',
    all: true,
    means: 'the line voltage falls to this share (for none at all there is ac-loss)',
    amount: share('to', 'of nominal', 0.05, 1),
    passes: 'must',
  },
  'ac-swell': {
    target: 'feeders',
    all: true,
    means: 'the line voltage rises to this share',
    amount: share('to', 'of nominal', 1, 2),
    passes: 'must',
  },
  'phase-loss': {
    target: 'feeders',
    all: true,
    means: 'one of three phases goes: a third of the single-phase modules stop taking power',
    passes: 'may',
  },
  'signal-lost': { target: 'signals', means: 'nothing arrives any more', passes: 'may' },
  'signal-frozen': { target: 'signals', means: 'the last value is held', passes: 'may' },
  'signal-late': {
    target: 'signals',
    means: 'samples arrive later by this much',
    amount: amount('by', { dimension: 'time', means: 'beyond the latency', min: 0, max: 60, ticks: true }),
    passes: 'may',
  },
  'signal-jitter': {
    target: 'signals',
    means: 'each sample arrives later by a random time up to this much (seeded)',
    amount: amount('by', { dimension: 'time', means: 'largest delay', min: 0, max: 60, ticks: true }),
    passes: 'may',
  },
  'signal-scaled': {
    target: 'signals',
    means: 'values arrive times this factor; −1 inverts them',
    amount: share('to', 'of the true value', -10, 10),
    passes: 'may',
  },
  'signal-stuck': {
    target: 'signals',
    means: 'the common line of the share sits at this per-unit value: 0 is a short to ground',
    amount: share('to', 'per unit', -10, 10),
    passes: 'may',
  },
  'sled-short': {
    target: 'sleds',
    means: 'a short at the sled of this resistance, until its fuse clears; the sled is then gone',
    amount: amount('to', { dimension: 'resistance', means: 'of the short', min: 1e-5, max: 10 }),
    passes: 'must',
  },
  'sled-off': { target: 'sleds', all: true, means: 'the sled is switched off' },
  'sled-on': {
    target: 'sleds',
    all: true,
    means: 'the sled is plugged or switched on again: inrush, then ramp',
  },
  brake: {
    target: 'sleds',
    all: true,
    means: 'the power brake holds the sled to this share of its demand',
    amount: share('to', 'of the demand', 0, 1),
    passes: 'may',
    ramps: true,
  },
} as const satisfies Readonly<Record<string, Occurrence>>;

export type OccurrenceKind = keyof typeof table;

export const occurrences: Readonly<Record<OccurrenceKind, Occurrence>> = table;

export const eventKinds = Object.keys(occurrences) as readonly OccurrenceKind[];

/** The entries of the signal table that may fail. */
export const signalNames = ['share', 'smoothing', 'ac'] as const;

const instant = (means: string, least: 'zero' | 'above'): FieldSpec =>
  quantity({
    dimension: 'time',
    symbol: '—',
    means,
    min: 0,
    max: 1e6,
    ticks: true,
    ...(least === 'above' ? { exclusive: true } : {}),
  });

/** Fields that every event has. */
export const eventFields: Readonly<Record<'at' | 'what' | 'unit', FieldSpec>> = {
  at: instant('when it happens', 'zero'),
  what: { kind: 'choice', of: eventKinds, means: 'what happens' },
  unit: { kind: 'text', means: 'the unit, bar, feeder or signal it happens to' },
};

/** Further fields of a kind of event, by the word that stands in front of them. */
export function furtherFields(kind: OccurrenceKind): ReadonlyMap<string, FieldSpec> {
  const what = occurrences[kind];
  const fields = new Map<string, FieldSpec>();
  if (what.amount !== undefined) fields.set(what.amount.word, quantity(what.amount.spec));
  if (what.passes !== undefined) fields.set('for', instant('how long it lasts', 'above'));
  if (what.ramps === true) fields.set('over', instant('how long it takes to come', 'above'));
  return fields;
}
