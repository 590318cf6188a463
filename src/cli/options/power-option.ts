/** A power on the command line. It stays as it was typed, so that the command can be printed again. */
import { InvalidArgumentError } from 'commander';
import { readQuantity } from '../../base/quantity.ts';

/** Takes a word that is a power. */
export function powerWord(word: string): string {
  powerOf(word);
  return word;
}

/** The power of such a word [W]; null where none was given. */
export function powerOf(word: string | undefined): number | null {
  if (word === undefined) return null;
  const read = readQuantity(word, 'power');
  if (read.ok) return read.value;
  throw new InvalidArgumentError('write a power with its unit, for example "200 kW".');
}
