/** The command that asks for the same again, ready for a shell: every option that makes it what it is. */
import type { Command } from 'commander';
import { quoted, quotedPlace } from '../../studies/trials/replay.ts';

/** Options that say where something is kept, how it is run or shown; all others say what it is. */
const besideIt: ReadonlySet<string> = new Set([
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
  'debug',
]);

/** `named`: what the command is about. `beside`: further options of this command that are left out, as its code names them. */
export function againWords(command: Command, named: string, beside: readonly string[] = []): string {
  return ['buswake', command.name(), quotedPlace(named), ...optionWords(command, beside)].join(' ');
}

/** Every option that was given on the command line, for a shell, so that one that is added later is not forgotten. */
export function optionWords(command: Command, beside: readonly string[] = []): string[] {
  return command.options.flatMap((option) => {
    const key = option.attributeName();
    if (besideIt.has(key) || beside.includes(key) || command.getOptionValueSource(key) !== 'cli') return [];
    const given: unknown = command.getOptionValue(key);
    const flag = option.long ?? option.short ?? '';
    // Of `--no-…` the value is false: the flag says it.
    if (typeof given === 'boolean') return [flag];
    // Pairs of a repeatable option are kept as a map; a time was read to seconds.
    const all = given instanceof Map ? [...given] : Array.isArray(given) ? given : [given];
    const unit = typeof given === 'number' && option.flags.includes('<time>') ? ' s' : '';
    return all.flatMap((one) => [flag, quoted(`${wordOf(one)}${unit}`)]);
  });
}

/** A change, a waiver and a pair were written with an equals sign between. */
function wordOf(given: unknown): string {
  if (Array.isArray(given)) return given.join('=');
  if (typeof given === 'object' && given !== null && 'path' in given && 'value' in given)
    return `${given.path}=${given.value}`;
  if (typeof given === 'object' && given !== null && 'limit' in given && 'reason' in given)
    return `${given.limit}=${given.reason}`;
  return String(given);
}

/** The command of this process as it was typed, to go on with what it kept. */
export function resumeWords(typed: readonly string[] = process.argv.slice(2)): string {
  // What lay there before is gone: to begin over it again would lose what was kept.
  const words = typed.filter((word) => word !== '--force' && word !== '--resume');
  return ['buswake', ...words.map(quoted), '--resume'].join(' ');
}
