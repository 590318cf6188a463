import { Command } from 'commander';
import { expect, test } from 'vitest';
import { refuseTwice } from '../../../src/cli/options/once.ts';
import { setOption } from '../../../src/cli/options/set-option.ts';

function given(...words: readonly string[]): Command {
  const command = new Command('made-up')
    .option('-o, --out <dir>', 'one')
    .option('--loop', 'a flag')
    .addOption(setOption())
    .exitOverride()
    .configureOutput({ writeErr: () => undefined });
  refuseTwice(command);
  return command.parse(words, { from: 'user' });
}

test('an option that one value answers is refused where it stands twice, whatever it is called', () => {
  expect(() => given('--out', 'a', '-o', 'b')).toThrow(
    "option '-o, --out <dir>' stands twice: leave one out",
  );
});

test('flags may stand twice, and so may options that collect, with something else each time', () => {
  const words = [
    '--loop',
    '--loop',
    '--set',
    'a=1',
    '--set',
    'b=2',
    '--set',
    'events.add=x',
    '--set',
    'events.add=y',
  ];
  expect(given(...words).getOptionValue('set')).toHaveLength(4);
  expect(() => given('--set', 'a=1', '--set', 'a=2')).toThrow(/It stands twice for a: leave one out/);
});
