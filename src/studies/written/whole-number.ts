import { BadInput } from '../../base/problem.ts';
import type { StudyFile } from './study-file.ts';

/** A word of a study that is a whole number, `fallback` where it says nothing. Throws BadInput. */
export function wholeNumber(
  study: StudyFile,
  key: string,
  fallback: number,
  least: number,
  most: number,
): number {
  const word = study.words.get(key);
  if (word === undefined) return fallback;
  const value = /^\d+$/.test(word) ? Number(word) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new BadInput([
    {
      severity: 'error',
      path: key,
      found: `${word} ${key}`,
      expected: `a whole number from ${least} to ${most}`,
      mend: `write ${key}: ${fallback}, or --${key} ${fallback} on the command line`,
    },
  ]);
}
