import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { gainsCommand } from '../../../src/cli/commands/gains.ts';
import { againWords, resumeWords } from '../../../src/cli/options/again.ts';

/** What a command would print to be called again, having been called with these words. */
async function again(command: Command, ...words: readonly string[]): Promise<string> {
  let printed = '';
  command.action((name: string) => {
    printed = againWords(command, name);
  });
  await new Command().addCommand(command).parseAsync([command.name(), ...words], { from: 'user' });
  return printed;
}

describe('the command that asks for the same again', () => {
  it('has a load with its unit, a flag that says no, and nothing of where it was kept', async () => {
    const words = ['single-step', '--at', '120 kW', '--no-confirm', '--out', 'out/a', '--workers', '1'];
    expect(await again(gainsCommand(), ...words)).toBe(
      "buswake gains single-step --at '120 kW' --no-confirm",
    );
  });
});

it('goes on with a study by the whole command as it was typed, and begins over nothing again', () => {
  const typed = ['spread', 'my study.yaml', '--out', 'out/a', '--force', '--workers', '2', '-q'];
  expect(resumeWords(typed)).toBe("buswake spread 'my study.yaml' --out out/a --workers 2 -q --resume");
  expect(resumeWords([...typed, '--resume'])).toBe(resumeWords(typed));
});
