/** `--part K/N`: one of N parts of a study, for a batch scheduler's job array; `--merge` joins them. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { excludes, needs, type OptionRule } from '../options/rules/rule.ts';

export interface Part {
  readonly number: number;
  readonly of: number;
}

export interface PartOptions {
  readonly part?: Part;
  readonly merge?: readonly string[];
}

export function addPartOptions(command: Command): Command {
  return command
    .addOption(partOption())
    .option('--merge <dirs...>', 'merge parts that were run elsewhere, simulating nothing again');
}

function partOption(): Option {
  return new Option('--part <k/n>', 'run only part k of n; combine the parts with --merge').argParser(
    (word: string): Part => {
      const match = /^([1-9]\d*)\/([1-9]\d*)$/.exec(word);
      const [number, of] = [Number(match?.[1]), Number(match?.[2])];
      if (!(number <= of))
        throw new InvalidArgumentError('write it as k/n with k from 1 to n, for example 3/8.');
      return { number, of };
    },
  );
}

/** What they ask of each other and of the other options of a study. */
export const partRules: readonly OptionRule[] = [
  needs('--part', ['--out'], 'a directory to keep trials in', 'add --out DIR'),
  needs('--merge', ['--out'], 'a directory to keep trials in', 'add --out DIR'),
  excludes('--part', '--merge', 'one of them: a part is run, or parts are joined'),
  excludes('--resume', '--merge', 'a study that goes on, or parts that are joined', 'leave it out'),
  excludes(
    '--json',
    '--part',
    'a report, which a part has none of',
    'leave it out, and give it with --merge',
  ),
];

/** Every n-th, so that what costs alike is spread over the parts. */
export function isOwn({ number, of }: Part): (index: number) => boolean {
  return (index) => index % of === number - 1;
}

/** Refuses a part in which nothing would lie. `what`: what the study is split into. */
export function refuseEmptyPart({ number, of }: Part, count: number, what: string): void {
  if (number <= count) return;
  throw new BadInput([
    {
      severity: 'error',
      found: `part ${number} of ${of} of ${count} ${what}`,
      expected: `a part with ${what} in it`,
      mend: `split into at most ${count} parts`,
    },
  ]);
}

/** What a part says once it is through. */
export function partLine({ number, of }: Part, done: number, count: number, what: string, out = ''): string {
  return `part ${number} of ${of}: ${done} of ${count} ${what}, in ${out}\n`;
}
