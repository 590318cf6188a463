/** Values of options: one that stands twice, of which the last would win, and one that was left out before another option. */
import type { Command } from 'commander';

/** Makes a command refuse an option whose value is the next option: `--out --force` would write to a folder `--force`. */
export function refuseOptionAsValue(command: Command): void {
  const flags = new Set(command.options.flatMap(({ long }) => long ?? []));
  for (const option of command.options)
    if (option.required)
      command.on(`option:${option.name()}`, (word: unknown) => {
        if (typeof word !== 'string' || (word !== '' && !flags.has(word))) return;
        const why = word === '' ? 'it is empty' : `${word} is an option; write ./${word} where it is a name`;
        command.error(`error: option '${option.flags}' argument missing: ${why}`, {
          code: 'commander.optionMissingArgument',
        });
      });
}

/** Makes a command refuse an option with a value that stands twice, unless it collects its values. */
export function refuseTwice(command: Command): void {
  for (const option of command.options) {
    if (!option.required && !option.optional) continue;
    let given = false;
    command.on(`option:${option.name()}`, () => {
      const value: unknown = command.getOptionValue(option.attributeName());
      const collects = Array.isArray(value) || value instanceof Map;
      if (given && !collects)
        command.error(`error: option '${option.flags}' stands twice: leave one out`, {
          code: 'commander.invalidArgument',
        });
      given = true;
    });
  }
}
