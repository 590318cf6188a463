/** The command that repeats a trial, ready for a shell. */
import type { ChangedScenario } from './trial.ts';

export function replayOf({ scenario, changes }: ChangedScenario): string {
  const words = changes.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);
  return ['buswake', 'run', scenario, ...words].map(quoted).join(' ');
}

/** A word as a POSIX shell reads it. */
export function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
