/** What a thread is handed at a time. */

import type { Place } from '../trials/key.ts';
import type { TrialKind } from '../trials/trial.ts';

/** Trials of a kind that are carried out one after the other on one thread, as neighbours share work. */
const most: { readonly [K in TrialKind]: number } = {
  run: 1,
  // A row of a map has one plant.
  cell: 24,
  response: 1,
  margins: 1,
  injected: 1,
  place: 1,
  simulated: 1,
  drive: 1,
  share: 1,
};

/** Rounds that every thread has at least, so that all have work to the end. */
const rounds = 4;

/** Places of the trials still to do, each trial once however often it stands in the list, in batches in their order. */
export function inBatches(
  places: readonly Place[],
  isMissing: (index: number) => boolean,
  workers: number,
): readonly (readonly number[])[] {
  const seen = new Set<string>();
  const once = places.flatMap(({ key }, k) => {
    if (!isMissing(k) || seen.has(key)) return [];
    seen.add(key);
    return [k];
  });
  const neighbours = Math.min(...places.map(({ kind }) => most[kind]));
  const size = Math.max(1, Math.min(neighbours, Math.ceil(once.length / (rounds * workers))));
  return Array.from({ length: Math.ceil(once.length / size) }, (_, j) =>
    once.slice(j * size, (j + 1) * size),
  );
}
