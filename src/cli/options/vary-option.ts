import { InvalidArgumentError, Option } from 'commander';

/** `--vary path=values`; `means`: for the help, how often it may be given among it. */
export function varyOption(means: string): Option {
  return new Option('--vary <path=values>', means)
    .argParser((word: string, before: readonly (readonly [string, string])[]) => {
      const cut = word.indexOf('=');
      if (cut < 1)
        throw new InvalidArgumentError('write it as path=values, for example "trays.count=6 to 14".');
      return [...before, [word.slice(0, cut).trim(), word.slice(cut + 1).trim()] as const];
    })
    .default([], 'as the study says');
}
