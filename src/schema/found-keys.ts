/**
 * What a word may stand for: keys by path or by their last part, kinds of events, limits, what limits compare, criteria of a
 * gains map.
 */
import type { LimitRow } from '../scenario/limit-row.ts';
import { eventKinds, occurrences } from '../scenario/occurrences.ts';
import { nearestWords } from '../scenario/text/nearest.ts';
import { type CriterionWords, criterionNamed, criterionNames } from '../studies/gains/accept.ts';
import { type EventExample, eventExample } from './event-example.ts';
import { type KeyWords, keyWords } from './key-words.ts';
import { keys } from './keys.ts';
import { type QuantityWords, quantitiesNamed } from './quantity-words.ts';

export interface Explained {
  /** Keys that the word names, each with what it may be. */
  readonly keys: readonly KeyWords[];
  /** Kinds of events, what they happen to, and how one is written. */
  readonly events: readonly EventWords[];
  /** What limits compare: metrics of a specification. */
  readonly quantities: readonly QuantityWords[];
  /** Criteria of an acceptable point of a gains map. */
  readonly criteria: readonly CriterionWords[];
  /** Limits as they ship, by their own name or by what they compare. */
  readonly limits: readonly LimitRow[];
}

export interface EventWords {
  readonly what: string;
  readonly means: string;
  readonly unit: string;
  readonly written: EventExample;
}

const all = Object.values(keys).flat();

/** Everything that the word names; nothing where it names nothing. `trays.T4.capacitance` is the key of every tray. */
export function explained(word: string, limits: readonly LimitRow[]): Explained {
  const whole = all.filter(
    ({ path }) => path === word || withoutOne(word).includes(path) || withoutOne(path).includes(word),
  );
  const found = whole.length > 0 ? whole : all.filter(({ path }) => path.endsWith(`.${word}`));
  const event = eventKinds.filter((kind) => kind === word.replace(/^events\./, ''));
  const limit = word.replace(/^limits\./, '');
  return {
    keys: [
      ...found,
      ...event.flatMap((kind) => all.filter(({ path }) => path.startsWith(`events.${kind}.`))),
    ].map(keyWords),
    events: event.map((what) => ({
      what,
      means: occurrences[what].means,
      unit: occurrences[what].target,
      written: eventExample(what),
    })),
    quantities: quantitiesNamed(word, limits),
    criteria: criterionNamed(word),
    limits: limits.filter(
      ({ id, quantity }) => id === limit || limit.startsWith(`${id}.`) || quantity === word,
    ),
  };
}

/** A path without one of its inner parts: the name of a unit, which a change may leave out, or the kind of a load, which it does. */
function withoutOne(path: string): string[] {
  const parts = path.split('.');
  return parts.slice(1, -1).map((_, k) => parts.toSpliced(k + 1, 1).join('.'));
}

/** Words that are spelled alike. */
export function nearestKeys(word: string, limits: readonly LimitRow[]): string[] {
  const last = all.map(({ path }) => path.split('.').at(-1)!);
  const words = new Set([
    ...all.map(({ path }) => path),
    ...last,
    ...eventKinds,
    ...limits.flatMap(({ id, quantity }) => [id, quantity]),
    ...criterionNames,
  ]);
  return nearestWords(word, [...words]);
}
