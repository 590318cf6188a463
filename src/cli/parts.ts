/** `--part K/N`: one of N equal parts of a study, for a batch scheduler's job array. */
import { InvalidArgumentError, Option } from 'commander';
import { BadInput } from '../problem.ts';

export interface Part {
  readonly number: number;
  readonly of: number;
}

export function partOption(): Option {
  return new Option('--part <k/n>', 'run only part k of n; join them with --merge').argParser(
    (word: string): Part => {
      const match = /^([1-9]\d*)\/([1-9]\d*)$/.exec(word);
      const [number, of] = [Number(match?.[1]), Number(match?.[2])];
      if (!(number <= of))
        throw new InvalidArgumentError('write it as k/n with k from 1 to n, for example 3/8.');
      return { number, of };
    },
  );
}

export function refusePartsWithoutOut(options: {
  readonly part?: Part;
  readonly merge?: readonly string[];
  readonly out?: string;
}): void {
  const wrong = (found: string, mend: string): never => {
    throw new BadInput([{ severity: 'error', found, expected: 'a directory to keep trials in', mend }]);
  };
  if (options.out === undefined && options.part !== undefined) wrong('--part without --out', 'add --out DIR');
  if (options.out === undefined && options.merge !== undefined)
    wrong('--merge without --out', 'add --out DIR');
}
