/** How an event is written, with every key that its kind has: in a scenario's list, and as a change. */
import {
  type EventTarget,
  furtherFields,
  type OccurrenceKind,
  occurrences,
} from '../scenario/occurrences.ts';
import type { ParameterSpec } from '../scenario/parameter.ts';
import { writtenAs } from './values.ts';

/** A unit of each target, by its name in the reference cabinet. */
const units: Readonly<Record<EventTarget, string>> = {
  shelves: 'S3',
  trays: 'T4',
  batteries: 'B1',
  banks: 'K1',
  sleds: 'sled-8',
  feeders: 'F1',
  links: 'LA1',
  bars: 'LA1',
  signals: 'share',
  coolant: 'S3',
};

/** Amounts that may well be written [SI]; of a share by the word before it. */
const amounts: Readonly<Record<string, number>> = {
  'to ratio': 0.7,
  'by ratio': 0.02,
  power: 2000,
  time: 5e-3,
  current: 50,
  resistance: 1e-3,
  count: 2,
};

/** What must have happened to a unit before. */
const before: Partial<Record<OccurrenceKind, OccurrenceKind>> = {
  'sled-on': 'sled-off',
  'shelf-join': 'shelf-trip',
  'ac-return': 'ac-loss',
};

export interface EventExample {
  /** Items of `events:`, the last of them this event. */
  readonly items: readonly string[];
  /** What `events.add=` may be set to, one after the other. */
  readonly changes: readonly string[];
}

export function eventExample(kind: OccurrenceKind): EventExample {
  const first = before[kind];
  const all = [...(first === undefined ? [] : [written(first, '4 s')]), written(kind, '5 s')];
  return { items: all.map(({ item }) => item), changes: all.map(({ change }) => change) };
}

function written(kind: OccurrenceKind, at: string): { readonly item: string; readonly change: string } {
  const unit = units[occurrences[kind].target];
  const further = [...furtherFields(kind)].flatMap(([word, field]) =>
    field.kind === 'quantity' ? [[word, exampleOf(word, field.spec)] as const] : [],
  );
  const keys = [['at', at], ['what', kind], ['unit', unit], ...further];
  return {
    item: `- { ${keys.map(([key, value]) => `${key}: ${value}`).join(', ')} }`,
    change: [kind, unit, ...further.flat(), `at ${at}`].join(' '),
  };
}

function exampleOf(word: string, spec: ParameterSpec): string {
  if (word === 'for') return '0.5 s';
  if (word === 'over') return '0.2 s';
  const { dimension, min, max } = spec;
  const usual = amounts[dimension] ?? amounts[`${word} ${dimension}`] ?? min;
  return writtenAs(usual < min || usual > max ? (min + max) / 2 : usual, spec);
}
