/** The command that asks for the same study again, ready for a shell: every option that makes it what it is. */
import type { Command } from 'commander';
import { quoted } from '../../studies/trials/replay.ts';

/** Options that say where a study is kept, how it is run or shown; all others say what it is. */
const besideTheStudy: ReadonlySet<string> = new Set([
  'out',
  'resume',
  'force',
  'workers',
  'quiet',
  'json',
  'color',
  'part',
  'merge',
  'sample',
]);

/** Takes every option that was given on the command line, so that one that is added later is not forgotten. */
export function againWords(command: Command, study: string): string {
  const words = command.options.flatMap((option) => {
    const key = option.attributeName();
    if (besideTheStudy.has(key) || command.getOptionValueSource(key) !== 'cli') return [];
    const given: unknown = command.getOptionValue(key);
    const flag = option.long ?? option.short ?? '';
    // Of `--no-…` the value is false: the flag says it.
    if (typeof given === 'boolean') return [flag];
    return (Array.isArray(given) ? given : [given]).flatMap((one) => [flag, wordOf(one)]);
  });
  return ['buswake', command.name(), study, ...words].map(quoted).join(' ');
}

/** A change and a pair were written with an equals sign between. */
function wordOf(given: unknown): string {
  if (Array.isArray(given)) return given.join('=');
  if (typeof given === 'object' && given !== null && 'path' in given && 'value' in given)
    return `${given.path}=${given.value}`;
  return String(given);
}
