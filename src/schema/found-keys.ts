/** What a word may stand for: keys by path or by their last part, kinds of events, limits. */
import type { LimitRow } from '../scenario/limit-row.ts';
import { eventKinds, occurrences } from '../scenario/occurrences.ts';
import { nearestWords } from '../scenario/text/nearest.ts';
import { type KeyWords, keyWords } from './key-words.ts';
import { keys } from './keys.ts';

export interface Explained {
  /** Keys that the word names, each with what it may be. */
  readonly keys: readonly KeyWords[];
  /** Kinds of events, and what they happen to. */
  readonly events: readonly { readonly what: string; readonly means: string; readonly unit: string }[];
  /** Limits as they ship. */
  readonly limits: readonly LimitRow[];
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
    events: event.map((what) => ({ what, means: occurrences[what].means, unit: occurrences[what].target })),
    limits: limits.filter(({ id }) => id === limit || limit.startsWith(`${id}.`)),
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
    ...limits.map(({ id }) => id),
  ]);
  return nearestWords(word, [...words]);
}
