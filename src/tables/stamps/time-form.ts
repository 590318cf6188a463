import type { Problem } from '../../base/problem.ts';
import type { ChosenTime } from '../columns/choose-time.ts';
import type { StampForm } from './clock.ts';
import { type DateOrder, dateOrderOf, isDateStamp } from './date-stamp.ts';
import { areDays, farApart, meanStep } from './first-steps.ts';
import { roundInLonger } from './round-step.ts';
import { epochUnitOf, perSecondOf, stampWithUnit, type TimeUnit } from './time-unit.ts';

export interface TimeForm {
  readonly unit: StampForm;
  /** Order of day and month; null where no stamp depends on it. */
  readonly order: DateOrder | null;
}

type Told = (text: Pick<Problem, 'found' | 'expected' | 'mend'>) => void;

/** What cannot be read, and what is stated against the file. */
export interface Refusals {
  readonly refuse: Told;
  readonly contradicted: Told;
}

/**
 * How the stamps are written, from the unit that name or option gives and from the first stamps themselves. Taken
 * without a unit: dates, numbers that can only be an epoch, and fractions less than 1 apart (seconds).
 * Anything else is a problem that names the option.
 */
export function timeForm(
  stamps: readonly string[],
  time: ChosenTime,
  dates: DateOrder | null,
  { refuse: problem, contradicted }: Refusals,
  inferred: string[],
): TimeForm | null {
  const { name, unit } = time;
  const written = stamps.map((cell) => cell.trim()).filter((cell) => cell !== '');
  if (written.some(isDateStamp)) return dateForm(written, dates, name, problem, inferred);
  if (dates !== null) {
    problem({
      found: `an order of day and month, ${dates}, for column ${name} that holds no dates`,
      expected: 'stamps that depend on it, such as 01/02/2030',
      mend: 'leave out --dates',
    });
    return null;
  }
  const inUnit = (u: TimeUnit): TimeForm => ({ unit: u, order: null });
  const numbers = written.map((cell) => Number(cell.replace(',', '.'))).filter(Number.isFinite);
  if (numbers.length === 0 && written.some((cell) => stampWithUnit(cell) !== null)) {
    inferred.push(`Stamps in ${name} carry their unit.`);
    return { unit: 'celled', order: null };
  }
  if (numbers.length === 0) {
    problem({
      found: `no stamp in column ${name} that can be read, for example ${JSON.stringify(written[0] ?? '')}`,
      expected: 'numbers, or dates such as 2030-01-31T12:00:00.250Z',
      mend: 'give --time COLUMN with the column of stamps, or write dates with their year',
    });
    return null;
  }
  const epoch = epochUnitOf(numbers[0]!);
  if (unit !== null) {
    // An epoch read in a coarser unit lands millennia ahead: the name is wrong by a thousand or more.
    if (!time.given && epoch !== null && perSecondOf(epoch) > perSecondOf(unit)) {
      problem({
        found: `column ${name} in ${unit} by its name, but ${written[0]} is a date in ${epoch}`,
        expected: 'a name that fits the stamps',
        mend: `give --time ${name}:${epoch} or --time ${name}:${unit}`,
      });
      return null;
    }
    const far_s = time.given ? null : farApart(numbers, unit);
    if (far_s !== null) {
      problem({
        found: `column ${name} in ${unit} by its name, whose stamps come every ${far_s} s: no whole number of minutes, and far apart for readings of a load`,
        expected: 'a name that fits the stamps',
        mend: `give --time ${name}:us or --time ${name}:ns (or ms), or --time ${name}:${unit} where it is so`,
      });
      return null;
    }
    if (time.given) meetContradictions(time, unit, epoch, written[0]!, contradicted);
    return inUnit(unit);
  }
  if (epoch !== null) {
    inferred.push(`Stamps in ${name} count ${epoch} from 1970, by their size.`);
    return inUnit(epoch);
  }
  const broken = numbers.some((value) => !Number.isInteger(value));
  if (broken && areDays(numbers)) {
    problem({
      found: `column ${name} without a unit, with numbers such as ${written[0]}: days of a spreadsheet, or seconds`,
      expected: 'stamps whose unit is known',
      mend: `give --time ${name}:d or --time ${name}:s`,
    });
    return null;
  }
  if (broken && meanStep(numbers) < 1) {
    const longer = roundInLonger(numbers);
    if (longer !== null) {
      problem({
        found: `column ${name} without a unit, whose stamps come every ${longer.step_s}: no round number of seconds, but ${longer.round}`,
        expected: 'stamps whose unit is known',
        mend: `give --time ${name}:${longer.unit} or --time ${name}:s`,
      });
      return null;
    }
    inferred.push(`Stamps in ${name} are seconds: fractions less than 1 apart.`);
    return inUnit('s');
  }
  problem({
    found: `column ${name} without a unit`,
    expected: 'stamps in s, ms, us or ns, or a counter whose step is known',
    mend: `give --time ${name}:s or --time ${name}:ms (or us, ns, min, h, d; or a step such as "${name}:10 ms")`,
  });
  return null;
}

/** A unit that was given, against that of the name and against stamps that can only be a date in another one. */
function meetContradictions(
  { name, written }: ChosenTime,
  unit: TimeUnit,
  epoch: TimeUnit | null,
  first: string,
  contradicted: Told,
): void {
  const isOther = (other: TimeUnit): boolean => perSecondOf(other) !== perSecondOf(unit);
  if (epoch === unit || typeof unit === 'number') return;
  if (written !== null && isOther(written)) {
    contradicted({
      found: `column ${name}, in ${written} by its name, read in ${unit} as stated`,
      expected: 'the unit that the name says',
      mend: `leave out :${unit}`,
    });
  } else if (epoch !== null && written === null) {
    contradicted({
      found: `column ${name} with ${first}, a date in ${epoch} by its size, read in ${unit} as stated`,
      expected: `stamps in ${epoch}`,
      mend: `give --time ${name}:${epoch}`,
    });
  }
}

function dateForm(
  written: readonly string[],
  given: DateOrder | null,
  name: string,
  problem: Told,
  inferred: string[],
): TimeForm | null {
  const shown = dateOrderOf(written);
  if (shown === 'open' && given === null) {
    problem({
      found: `dates in column ${name} such as ${written.find(isDateStamp)}, day or month first`,
      expected: 'dates whose order is known',
      mend: 'give --dates day-first or --dates month-first',
    });
    return null;
  }
  if (given !== null && shown !== 'open' && shown !== given) {
    problem({
      found: `dates in column ${name} such as ${written.find(isDateStamp)}, ${shown === null ? 'which have the year first' : `${shown} by their form`}, and --dates ${given}`,
      expected: 'dates whose order is not known, or the order that they have',
      mend: 'leave out --dates',
    });
    return null;
  }
  inferred.push('Stamps are dates and times, by their form.');
  const order = given ?? (shown === 'open' ? null : shown);
  if (given === null && order !== null) {
    inferred.push(
      order === 'day-first'
        ? 'Dates have the day before the month, by their dots or a day above 12.'
        : 'Dates have the month before the day, by a day above 12.',
    );
  }
  return { unit: 'date', order };
}
