/** `--set path=value`, as often as wanted: a change of the scenario. */
import { InvalidArgumentError, Option } from 'commander';
import { isPlaceChange } from '../../scenario/changes/places.ts';
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
  const path = word.slice(0, cut).trim();
  const actsEachTime = path === 'events.add' || isPlaceChange({ path });
  if (!actsEachTime && before.some((change) => change.path === path))
    throw new InvalidArgumentError(`It stands twice for ${path}: leave one out.`);
  return [...before, { path, value: word.slice(cut + 1).trim() }];
}
