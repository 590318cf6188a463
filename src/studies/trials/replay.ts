/** The command that repeats a trial, ready for a shell. */
import { isPlaceChange } from '../../scenario/changes/places.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { ChangedScenario } from './trial.ts';

export function replayOf({ scenario, changes }: ChangedScenario): string {
  const words = lasting(changes).flatMap(({ path, value }) => ['--set', `${path}=${value}`]);
  return ['buswake run', quotedPlace(scenario), ...words.map(quoted)].join(' ');
}

/** Changes without those that a later one of the same path takes the place of. */
export function lasting<C extends Pick<Change, 'path'>>(changes: readonly C[]): readonly C[] {
  return changes.filter(
    ({ path }, k) =>
      path === 'events.add' ||
      isPlaceChange({ path }) ||
      !changes.slice(k + 1).some((later) => later.path === path),
  );
}

/** A word as a POSIX shell reads it. */
export function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}

/** A file or folder as an argument: one that begins with a dash would be taken for an option. */
export function quotedPlace(name: string): string {
  return quoted(name.startsWith('-') && name !== '-' ? `./${name}` : name);
}
