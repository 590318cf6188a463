/** Which series go out: named by words in which `*` stands for anything. */

import { BadInput, type Problem } from '../base/problem.ts';
import type { ColumnSeries } from '../channels/series.ts';
import { listed, nearestWords } from '../scenario/text/nearest.ts';

/** The words of a list such as `total.*,S1.current_A`. */
export function channelWords(list: string): readonly string[] {
  return list
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

/**
 * The series that at least one word names, in the order of `all`. Throws BadInput with every word that names none,
 * called by `option`.
 */
export function chooseSeries<T extends Pick<ColumnSeries, 'id'>>(
  all: readonly T[],
  words: readonly string[],
  option = '--channels',
): readonly T[] {
  const ids = all.map(({ id }) => id);
  const patterns = words.map((word) => ({ word, fits: patternOf(word) }));
  const unknown = patterns.filter(({ fits }) => !ids.some((id) => fits.test(id)));
  if (words.length === 0 || unknown.length > 0)
    throw new BadInput(
      words.length === 0
        ? [problem(option, 'no channel', 'name at least one')]
        : unknown.map(({ word }) => problem(option, `${word}, no channel of that name`, hint(word, ids))),
    );
  return all.filter(({ id }) => patterns.some(({ fits }) => fits.test(id)));
}

/** `*` for any characters; all others stand for themselves. */
function patternOf(word: string): RegExp {
  const parts = word.split('*').map((part) => part.replace(/[\\^$.|?+()[\]{}]/g, '\\$&'));
  return new RegExp(`^${parts.join('.*')}$`);
}

function problem(option: string, found: string, mend: string): Problem {
  const expected =
    'names of channels, with commas between, * for anything: total.*,S1.current_A,F1.ac_power_W';
  return { severity: 'error', file: option, found, expected, mend };
}

function hint(word: string, ids: readonly string[]): string {
  const near = nearestWords(word.replaceAll('*', ''), ids);
  return near.length === 0 ? 'run without --channels to see the usual ones' : `did you mean ${listed(near)}?`;
}
