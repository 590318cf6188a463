/** A command line that is malformed, as the problem that `--json` prints: the same keys as of any other input. */
import type { CommanderError } from 'commander';
import type { Problem } from '../base/problem.ts';

/** What belongs there, by the code of what was found. */
const expected: Readonly<Record<string, string>> = {
  'commander.unknownCommand': 'a command of buswake',
  'commander.help': 'a command of buswake',
  'commander.unknownOption': 'an option that the command takes',
  'commander.missingArgument': 'every argument that the command needs',
  'commander.optionMissingArgument': 'a value behind the option',
  'commander.missingMandatoryOptionValue': 'every option that the command needs',
  'commander.invalidArgument': 'a value that the option takes, once',
  'commander.excessArguments': 'no more arguments than the command takes',
};

/** `error: unknown option '--josn'`, a line break and `(Did you mean --json?)` are what was found, and a way out. */
export function usageProblem({ code, message }: CommanderError): Problem {
  const [first = '', ...hints] = message.split('\n');
  const hint = /^\((Did you mean .*)\)$/.exec(hints.join(' '))?.[1];
  return {
    severity: 'error',
    file: 'command line',
    found: code === 'commander.help' ? 'no command' : first.replace(/^error: /, ''),
    expected: expected[code] ?? 'a command line as its help says it',
    mend: hint === undefined ? 'see --help of the command' : hint.replace(/^D/, 'd'),
  };
}
