/** The unit of a chosen column, by its name or as stated; where both differ, or the name says another quantity, that is met. */
import {
  amperesOf,
  currentUnitIn,
  currentUnits,
  powerUnitIn,
  powerUnits,
  wattsOf,
} from '../../tables/cells/power-unit.ts';
import { namedQuantity } from '../../tables/columns/named-quantity.ts';
import { type Quantity, statedUnit } from '../../tables/columns/stated-unit.ts';
import type { PowerChoice } from './power-choice.ts';

export function amperesIn(names: readonly string[], index: number, choice: PowerChoice): number | null {
  const { reading, report } = choice;
  const name = names[index]!;
  meetOther(names, index, 'current', choice);
  const written = currentUnitIn(name);
  const unit = reading.unit ?? written;
  if (unit === null) return null;
  const amperes = amperesOf(unit);
  if (amperes === null) report(`unit ${unit}`, `one of ${currentUnits}`, 'give --unit with one of these');
  else if (reading.unit !== null && written !== null && amperesOf(written) !== amperes)
    meetUnit(name, written, choice);
  return amperes;
}

export function wattsIn(names: readonly string[], index: number, choice: PowerChoice): number | null {
  const { reading, report, inferred } = choice;
  const name = names[index]!;
  meetOther(names, index, 'power', choice);
  const written = powerUnitIn(name)?.unit ?? null;
  const unit = reading.unit ?? written;
  if (unit === null) return null;
  const watts = wattsOf(unit);
  if (typeof watts === 'number') {
    const named = written === null ? null : wattsOf(written);
    // Letters that can mean two are what the option is for.
    if (reading.unit === null) inferred.push(`${name} is in ${written}, by its name.`);
    else if (typeof named === 'number' && named !== watts) meetUnit(name, written!, choice);
    return watts;
  }
  report(
    watts === 'unclear' ? `unit ${unit}, milliwatt or megawatt` : `unit ${unit}`,
    `one of ${powerUnits}`,
    watts === 'unclear' ? 'give --unit mW or --unit MW' : 'give --unit with one of these',
  );
  return null;
}

/** A unit that was stated against that of the name. */
function meetUnit(name: string, written: string, { reading, report, overruled }: PowerChoice): void {
  overruled.meet(
    `column ${name}, in ${written} by its name, read in ${reading.unit} as stated`,
    'the unit that the name says',
    'leave out --unit',
    report,
  );
}

/** A column whose name says another quantity. */
export function meetOther(
  names: readonly string[],
  index: number,
  as: Quantity,
  { report, overruled }: PowerChoice,
): void {
  const name = names[index]!;
  const said = namedQuantity(name);
  if (said === null || said.of === as || isLettered(names, name)) return;
  overruled.meet(
    `column ${name}, ${said.by}, read as a ${as}`,
    `a column of ${as}`,
    'name another column',
    report,
  );
}

/** Whether a name is one of a row that its last letter tells apart, as P_A, P_B and P_C are: a phase, not amperes. */
function isLettered(names: readonly string[], name: string): boolean {
  const stem = name.slice(0, -1);
  return names.some(
    (other) =>
      other.startsWith(stem) && /^[A-Z]$/.test(other.slice(stem.length)) && statedUnit(other) === null,
  );
}
