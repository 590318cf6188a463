import type { Problem } from '../../problem.ts';
import type { Columns } from './choose-columns.ts';
import { isIsoStamp } from './clock.ts';
import { epochUnitOf, perSecond, type TimeUnit } from './time-unit.ts';

/**
 * How the stamps are written, from the unit that name or option gives and from the first stamps themselves. Taken
 * without a unit: dates, numbers that can only be an epoch, and broken numbers less than 1 apart (seconds).
 * Anything else is a problem that names the option.
 */
export function timeForm(
  stamps: readonly string[],
  columns: Columns,
  problem: (text: Pick<Problem, 'found' | 'expected' | 'mend'>) => void,
  inferred: string[],
): TimeUnit | 'iso' | null {
  const { name, unit } = columns.time;
  const written = stamps.map((cell) => cell.trim()).filter((cell) => cell !== '');
  if (written.some(isIsoStamp)) {
    inferred.push(`Stamps are dates and times, by their form.`);
    return 'iso';
  }
  const numbers = written.map(Number).filter((value) => Number.isFinite(value));
  if (numbers.length === 0) {
    problem({
      found: `no stamp in column ${name} that can be read, for example ${JSON.stringify(written[0] ?? '')}`,
      expected: 'numbers, or dates such as 2030-01-31T12:00:00.250Z',
      mend: 'give --time COLUMN with the column of stamps',
    });
    return null;
  }
  const epoch = epochUnitOf(numbers[0]!);
  if (unit !== null) {
    // An epoch read in a coarser unit lands millennia ahead: the name is wrong by a thousand or more.
    if (!columns.timeUnitGiven && epoch !== null && perSecond[epoch] > perSecond[unit]) {
      problem({
        found: `column ${name} in ${unit} by its name, but ${written[0]} is a date in ${epoch}`,
        expected: 'a name that fits the stamps',
        mend: `give --time ${name}:${epoch} or --time ${name}:${unit}`,
      });
      return null;
    }
    return unit;
  }
  if (epoch !== null) {
    inferred.push(`Stamps in ${name} count ${epoch} from 1970, by their size.`);
    return epoch;
  }
  const broken = numbers.some((value) => !Number.isInteger(value));
  if (broken && meanStep(numbers) < 1) {
    inferred.push(`Stamps in ${name} are seconds: broken numbers less than 1 apart.`);
    return 's';
  }
  problem({
    found: `column ${name} without a unit`,
    expected: 'stamps in s, ms, us or ns',
    mend: `give --time ${name}:s or --time ${name}:ms (or us, ns)`,
  });
  return null;
}

function meanStep(numbers: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < numbers.length; i++) sum += Math.abs(numbers[i]! - numbers[i - 1]!);
  return numbers.length < 2 ? 0 : sum / (numbers.length - 1);
}
