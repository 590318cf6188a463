import { InvalidArgumentError } from 'commander';

/** Collects the values of a repeatable option that takes numbers as they stand in a file. */
export function anotherNumber(text: string, before: readonly number[] = []): readonly number[] {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value))
    throw new InvalidArgumentError('It must be a number as it stands in the file, for example -999.');
  return [...before, value];
}
