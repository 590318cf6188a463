/** Every malformed command line of every command is one document with --json. */
import { spawnSync } from 'node:child_process';
import { CommanderError } from 'commander';
import { describe, expect, it } from 'vitest';
import { commandNames, commands } from '../../src/cli/commands.ts';
import { refuseOptionAsValue } from '../../src/cli/options/once.ts';
import { usageProblem } from '../../src/cli/usage-problem.ts';

/** What the command says of these words, of which none may be carried out. */
async function said(name: string, words: readonly string[]) {
  const command = (await commands[name]!.load())();
  command.exitOverride().configureOutput({ writeErr: () => undefined });
  refuseOptionAsValue(command);
  try {
    await command.parseAsync(words, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return usageProblem(error);
    throw error;
  }
  throw new Error(`${name} ${words.join(' ')} was carried out`);
}

describe.each(commandNames)('%s', (name) => {
  it.each([
    [
      'an option that it has not',
      ['--nonsense'],
      "unknown option '--nonsense'",
      'an option that the command takes',
    ],
    [
      'an option without its value',
      ['--out', '--json'],
      'argument missing: --json is an option',
      'a value behind the option',
    ],
    [
      'no argument',
      [],
      /^missing required argument|^required option/,
      /^every (argument|option) that the command needs/,
    ],
  ])('says of %s what was found and what belongs there', async (_, words, found, expected) => {
    const out = (await commands[name]!.load())().options.some(({ long }) => long === '--out');
    if (words[0] === '--out' && !out) return;
    // One command cannot do without it, and would say that first.
    const place = out && words[0] === '--nonsense' ? ['--out', 'x'] : [];
    const problem = await said(name, [...place, ...words]);
    expect(problem).toMatchObject({ severity: 'error', file: 'command line' });
    expect(problem.found).toMatch(found);
    expect(problem.expected).toMatch(expected);
  });
});

it('without room on standard output ends in words', () => {
  const typed = `${process.execPath} scripts/buswake.mjs check pulse-train > /dev/full`;
  const { status, stderr } = spawnSync('sh', ['-c', typed], { encoding: 'utf8' });
  expect([status, stderr]).toEqual([
    3,
    expect.stringMatching(/^Standard output cannot be written \(ENOSPC\)/),
  ]);
});

describe('the document on standard output', () => {
  it.each([
    ['rnu', 'did you mean run?'],
    ['help run more', 'see --help of the command'],
    ['run x --josn', 'did you mean --json?'],
    ['spread x --workers none', 'see --help of the command'],
    ['--nonsense', 'see --help of the command'],
  ])('of buswake %s --json has the way out', (words, mend) => {
    const { status, stdout } = spawnSync(
      process.execPath,
      ['scripts/buswake.mjs', ...words.split(' '), '--json'],
      { encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' } },
    );
    const document = JSON.parse(stdout) as { problems: readonly { mend: string }[] };
    expect([status, Object.keys(document)]).toEqual([2, ['schema_version', 'problems']]);
    expect(document.problems.map((problem) => problem.mend)).toEqual([mend]);
  });
});
