import { InvalidArgumentError } from 'commander';
import { readNumberCell } from '../../tables/cells/number-cell.ts';

/**
 * Collects the values of a repeatable option that takes a number of a file. A comma that may be decimal or part
 * thousands is asked about: what it is in the file is not known here.
 */
export function anotherNumber(text: string, before: readonly number[] = []): readonly number[] {
  const read = readNumberCell(text, null);
  if (read.kind !== 'number' || read.unit !== null)
    throw new InvalidArgumentError('It must be a number, without a unit, for example -999.');
  if (read.mark === 'open') {
    const thousands = readNumberCell(text, 'point');
    const other = thousands.kind === 'number' ? thousands.value : read.value;
    throw new InvalidArgumentError(
      `Its comma may be decimal or part thousands: write its value without one, ${read.value} or ${other}.`,
    );
  }
  return [...before, read.value];
}
