/** Options that mean the same in every command. */
import { type Command, Option } from 'commander';

/** `--force`: overwrite what another option names, and nothing else. `what`: what that may be. */
export function forceOption(what: string): Option {
  return new Option('--force', `overwrite what lies there: ${what}`);
}

/** `--json`: one document on standard output in place of the text. */
export function jsonOption(): Option {
  return new Option('--json', 'print one JSON document');
}

/** What every command takes beside its own options, where it has no such option yet. */
export function addEverywhere(command: Command): void {
  const everywhere = [
    new Option('--no-color', 'no colour'),
    new Option('--debug', 'show where an error came from'),
  ];
  for (const option of everywhere)
    if (!command.options.some(({ long }) => long === option.long)) command.addOption(option);
}
