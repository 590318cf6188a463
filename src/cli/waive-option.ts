/** `--waive id="reason"`, as often as wanted: a limit that the reviewer waives for this run. */
import { InvalidArgumentError, Option } from 'commander';
import type { Waiver } from '../scenario/scenario.ts';

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
  return [...before, { limit: word.slice(0, cut).trim(), reason, by: null, until: null }];
}

/** What to say about waivers whose last day has passed; the verdict itself knows no date. */
export function expiredWaivers(waivers: readonly Waiver[], today: string): string[] {
  return waivers
    .filter(({ until }) => until !== null && until < today)
    .map(({ limit, until }) => `The waiver of ${limit} ran out on ${until}; it is still applied.`);
}
