/** The command that repeats a trial, ready for a shell. */
import { isPlaceChange } from '../../scenario/changes/places.ts';
import type { ChangedScenario } from './trial.ts';

export function replayOf({ scenario, changes }: ChangedScenario): string {
  // A trial's own change of a path follows the one that was asked for and takes its place.
  const lasting = changes.filter(
    ({ path }, k) =>
      path === 'events.add' ||
      isPlaceChange({ path }) ||
      !changes.slice(k + 1).some((later) => later.path === path),
  );
  const words = lasting.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);
  return ['buswake', 'run', scenario, ...words].map(quoted).join(' ');
}

/** A word as a POSIX shell reads it. */
export function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
