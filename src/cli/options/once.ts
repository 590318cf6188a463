/** Options that one value answers: given twice, the last would win in silence. */
import type { Command } from 'commander';

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
