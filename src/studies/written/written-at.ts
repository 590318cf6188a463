/**
 * Where the changes of a study's file stand, and what they belong to: a fault, a corner, a lever. Kept beside the changes
 * and not in them, so that a trial is the same trial wherever its changes are written.
 */
import type { Problem } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Origin } from '../../scenario/text/origin.ts';

interface Place {
  readonly origin: Origin;
  /** As a path of the file: `faults.tray out`. */
  readonly of: string;
}

const places = new WeakMap<Change, Place>();

/** The same change, known for where it stands. */
export function placed(change: Change, place: Place): Change {
  places.set(change, place);
  return change;
}

/** A path with its values as a study varies them. */
type Varied = [path: string, values: string];

const varies = new WeakMap<readonly [path: string, values: string], Origin>();

/** The same, known for where it stands. */
export function varied(pair: Varied, origin: Origin): Varied {
  varies.set(pair, origin);
  return pair;
}

/** The change that one value of what is varied makes, placed where the values stand. */
export function variedTo(pair: readonly [path: string, values: string], value: string): Change {
  const [path] = pair;
  const origin = varies.get(pair);
  return origin === undefined ? { path, value } : placed({ path, value }, { origin, of: `vary.${path}` });
}

/** null where it was not read from a file. */
export function writtenAt(change: Change): Origin | null {
  return places.get(change)?.origin ?? null;
}

/** Problems of a trial, each with what its change belongs to. */
export function withOwners(problems: readonly Problem[], changes: readonly Change[]): readonly Problem[] {
  const owners = new Map(
    changes.flatMap((change): [string, string][] => {
      const place = places.get(change);
      return place === undefined ? [] : [[keyOf(place.origin), place.of]];
    }),
  );
  return problems.map((problem) => {
    const owner = owners.get(keyOf(problem));
    return owner === undefined ? problem : { ...problem, path: [owner, problem.path].join(': ') };
  });
}

function keyOf({ file, line, column }: Pick<Problem, 'file' | 'line' | 'column'>): string {
  return [file, line, column].join(' ');
}
