/** `--set path=value`, as often as wanted: a change of the scenario. */
import { InvalidArgumentError, Option } from 'commander';
import type { Change } from '../../scenario/scenario.ts';

export function setOption(): Option {
  return new Option(
    '--set <path=value>',
    'change one value, for example trays.capacitance="130 F"; repeatable',
  )
    .argParser(collect)
    .default([], 'none');
}

function collect(word: string, before: readonly Change[]): readonly Change[] {
  const cut = word.indexOf('=');
  if (cut < 1 || cut === word.length - 1) {
    throw new InvalidArgumentError('write it as path=value, for example load.high="200 kW".');
  }
  return [...before, { path: word.slice(0, cut).trim(), value: word.slice(cut + 1).trim() }];
}
