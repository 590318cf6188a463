/** `--waive id="reason"`, as often as wanted: a limit that the reviewer waives for this run. */
import { InvalidArgumentError, Option } from 'commander';
import { isDay } from '../../scenario/day.ts';
import type { Waiver } from '../../scenario/scenario.ts';

export function waiveOption(): Option {
  return new Option('--waive <id=reason>', 'waive a limit, for example trim="being retuned"; repeatable')
    .argParser(collect)
    .default([], 'none');
}

function collect(word: string, before: readonly Waiver[]): readonly Waiver[] {
  const cut = word.indexOf('=');
  const reason = word.slice(cut + 1).trim();
  if (cut < 1 || reason === '') {
    throw new InvalidArgumentError('write it as id=reason, for example ac-ramp-100ms="the utility agreed".');
  }
  const limit = word.slice(0, cut).trim();
  if (before.some((waiver) => waiver.limit === limit))
    throw new InvalidArgumentError(`It stands twice for ${limit}: leave one out.`);
  return [...before, { limit, reason, by: null, until: null }];
}

/** `--on DATE`: the day for which the verdict is given. */
export function onOption(): Option {
  return new Option(
    '--on <date>',
    'day for which the verdict is given and waivers hold, for example 2030-06-30 (default: today, in universal time)',
  ).argParser(dayOf);
}

function dayOf(word: string): string {
  if (!isDay(word)) throw new InvalidArgumentError('It must be a day, for example 2030-06-30.');
  return word;
}

/** Today, as `--on` would say it: in universal time. */
export function today(): string {
  return new Date().toISOString().slice(0, 10);
}
