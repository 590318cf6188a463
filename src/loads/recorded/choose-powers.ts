import { readQuantity } from '../../base/quantity.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import {
  amperesOf,
  currentUnitIn,
  currentUnits,
  powerUnitIn,
  powerUnits,
  voltageUnitIn,
  voltsOf,
  wattsOf,
} from '../../tables/cells/power-unit.ts';
import { areNumbered, saysCurrent, saysPower, saysVoltage } from '../../tables/columns/column-names.ts';
import {
  asOption,
  type ColumnReport,
  columnLabel,
  findColumn,
  isRepeated,
  quotedName,
} from '../../tables/columns/column-report.ts';
import { namedQuantity } from '../../tables/columns/named-quantity.ts';
import { type Quantity, statedUnit } from '../../tables/columns/stated-unit.ts';
import { alternating } from './alternating.ts';
import type { Overruled } from './overruled.ts';

/** The voltage that a current is multiplied by: a column, in volts of one unit, or one value for all. */
export type VoltageOf =
  | { readonly index: number; readonly name: string; readonly volts: number | null }
  | { readonly value_V: number };

export interface PowerColumn {
  readonly index: number;
  readonly name: string;
  /** Watts (or amperes of a current) of one unit; null where neither name nor option says, so that cells must. */
  readonly factor: number | null;
  /** null: the column is a power. Else a current, and what it is multiplied by. */
  readonly voltage: VoltageOf | null;
}

/** Columns that are summed, of a sensible recording: beyond this they hold something else. */
const mostColumns = 1024;

/** Columns of power, or of current with its voltage, by option, then by name. `texts`: columns that hold words alone. */
export function choosePowers(
  names: readonly string[],
  asked: Omit<PowerChoice, 'called'>,
  texts: ReadonlySet<number>,
): PowerColumn[] {
  const { reading, report, inferred } = asked;
  const called = (says: (name: string) => boolean): number[] => measuredOf(names, says, texts);
  const choice = { ...asked, called };
  if (reading.power.length > 0 && reading.current.length > 0) {
    report('both --power and --current', 'one of them', 'leave one out');
    return [];
  }
  if (reading.current.length > 0) {
    const indices = reading.current.map((name) => findColumn(names, name, '--current', report));
    reportTwice(names, indices, '--current', report);
    return indices.includes(-1) ? [] : currents(names, indices, choice);
  }
  let indices = reading.power.map((name) => findColumn(names, name, '--power', report)).filter((i) => i >= 0);
  reportTwice(names, indices, '--power', report);
  if (reading.power.length === 0) {
    indices = called(saysPower);
    if (reportMany(indices, '--power', report)) return [];
    const found = indices.map((i) => columnLabel(names, i));
    if (indices.length === 0) return byCurrent(names, choice);
    if (indices.length > 1 && !areOfOneKind(names, indices)) {
      report(
        `${indices.length} columns that may be the power: ${found.join(', ')}`,
        'one power column, or several that are to be summed',
        `give ${indices.map((i) => `--power ${asOption(names, i)}`).join(' or ')} (repeat --power to sum)`,
      );
      return [];
    }
    inferred.push(`Power is ${found.join(' + ')}, by name.`);
  }
  if (reading.voltage !== null) {
    report(
      `a voltage, ${reading.voltage}, for ${indices.map((i) => columnLabel(names, i)).join(', ')}, which is a power`,
      'a voltage that a current is taken times',
      'leave out --voltage, or name the current by --current',
    );
  }
  return indices.map((index) => ({
    index,
    name: columnLabel(names, index),
    factor: wattsIn(names, index, choice),
    voltage: null,
  }));
}

/** A column that is named twice, by its name and its number for example, would be summed with itself. */
function reportTwice(
  names: readonly string[],
  indices: readonly number[],
  option: string,
  report: ColumnReport,
): void {
  const twice = indices.find((index, k) => index >= 0 && indices.indexOf(index) < k);
  if (twice !== undefined)
    report(
      `${columnLabel(names, twice)} named twice by ${option}`,
      'each column once, for several are summed',
      'leave one of them out',
    );
}

interface PowerChoice {
  readonly reading: RecordedReading;
  readonly report: ColumnReport;
  readonly inferred: string[];
  readonly overruled: Overruled;
  /** Columns whose names say something. */
  readonly called: (says: (name: string) => boolean) => number[];
}

/** Columns that are called so; where some of them hold numbers, those with words alone (a state, a unit) are none. */
function measuredOf(
  names: readonly string[],
  says: (name: string) => boolean,
  texts: ReadonlySet<number>,
): number[] {
  const all = names.flatMap((name, i) => (says(name) ? [i] : []));
  const numbers = all.filter((i) => !texts.has(i));
  return numbers.length > 0 ? numbers : all;
}

/** More columns than any cabinet has devices are not summed because of their names. */
function reportMany(indices: readonly number[], option: string, report: ColumnReport): boolean {
  if (indices.length <= mostColumns) return false;
  report(
    `${indices.length} columns that may be summed`,
    `at most ${mostColumns} of them`,
    `give ${option} COLUMN for each that is meant, or export fewer`,
  );
  return true;
}

/** No column says power: a current and its voltage do as well. */
function byCurrent(names: readonly string[], choice: PowerChoice): PowerColumn[] {
  const { report, called } = choice;
  const indices = called(saysCurrent);
  if (reportMany(indices, '--current', report)) return [];
  const found = indices.map((i) => columnLabel(names, i));
  if (indices.length === 0) {
    report(
      `no power column among ${names.join(', ')}`,
      'a column of power with its unit in the name',
      'give --power COLUMN and --unit UNIT; where its rows hold other things too, --where COLUMN=VALUE',
    );
    return [];
  }
  if (indices.length > 1 && !areOfOneKind(names, indices)) {
    report(
      `${indices.length} columns that may be the current: ${found.join(', ')}`,
      'one current column, or several whose powers are to be summed',
      `give ${indices.map((i) => `--current ${asOption(names, i)}`).join(' or ')} (repeat --current to sum)`,
    );
    return [];
  }
  return currents(names, indices, choice);
}

function currents(names: readonly string[], indices: readonly number[], choice: PowerChoice): PowerColumn[] {
  const { reading, report } = choice;
  if (reading.side === 'ac') {
    report(
      'a current on the AC side',
      'power: volts times amperes on the AC side leave the power factor out',
      'record the power, and give --power COLUMN',
    );
    return [];
  }
  const voltages = voltagesFor(names, indices, reading.voltage, choice);
  if (voltages === null) return [];
  meetAlternating(names, indices, voltages, choice);
  return indices.map((index, k) => ({
    index,
    name: columnLabel(names, index),
    factor: amperesIn(names, index, choice),
    voltage: voltages[k]!,
  }));
}

/** Volts times amperes of an alternating current leave its power factor out. */
function meetAlternating(
  names: readonly string[],
  indices: readonly number[],
  voltages: readonly VoltageOf[],
  { report, overruled }: PowerChoice,
): void {
  const own = indices.map((i) => names[i]!);
  const used = [...own, ...new Set(voltages.flatMap((one) => ('index' in one ? [names[one.index]!] : [])))];
  const why = alternating(names, used);
  if (why !== null)
    overruled.meet(
      `${own.join(', ')} times a voltage, ${why}: an apparent power`,
      'the real power, of which volts times amperes leave the power factor out',
      'name a column of power by --power, or record the power',
      report,
    );
}

/** The voltage of each current: one value, one column for all, or as many numbered columns as currents. */
function voltagesFor(
  names: readonly string[],
  indices: readonly number[],
  wanted: string | null,
  choice: PowerChoice,
): VoltageOf[] | null {
  const { report, inferred, called } = choice;
  const own = indices.map((i) => columnLabel(names, i)).join(', ');
  const columnOf = (index: number): VoltageOf => {
    const unit = voltageUnitIn(names[index]!);
    meetOther(names, index, 'voltage', choice);
    return { index, name: columnLabel(names, index), volts: unit === null ? 1 : voltsOf(unit) };
  };
  if (wanted !== null && !names.includes(wanted) && !/^\d+$/.test(wanted)) {
    const value = readQuantity(wanted, 'voltage');
    if (value.ok && value.value > 0) {
      const recorded = called(saysVoltage).map((i) => columnLabel(names, i));
      if (recorded.length > 0)
        choice.overruled.meet(
          `a constant voltage of ${wanted}, as stated, beside ${recorded.join(', ')}`,
          'the voltage that was recorded',
          `give --voltage ${quotedName(recorded[0]!)}`,
          report,
        );
      inferred.push(
        `Power is ${own} at a constant ${wanted}, as given: what the voltage really did is not in it.`,
      );
      return indices.map(() => ({ value_V: value.value }));
    }
    report(
      `no column named ${wanted}, and no voltage`,
      `one of ${names.join(', ')}, or a voltage above 0`,
      'give --voltage COLUMN, or for example --voltage "50 V"',
    );
    return null;
  }
  const found = wanted !== null ? [findColumn(names, wanted, '--voltage', report)] : called(saysVoltage);
  if (found[0] === -1) return null;
  if (found.length === 1 || (found.length === indices.length && areOfOneKind(names, found))) {
    inferred.push(`Power is ${own} times ${found.map((i) => columnLabel(names, i)).join(', ')}, row by row.`);
    return indices.map((_, k) => columnOf(found[found.length === 1 ? 0 : k]!));
  }
  report(
    found.length === 0
      ? `current ${own} without a voltage`
      : `${found.length} columns that may be the voltage: ${found.map((i) => columnLabel(names, i)).join(', ')}`,
    'power, or a current with its voltage',
    found.length === 0
      ? 'give --voltage COLUMN, or --voltage "50 V" where it was steady; or --power COLUMN and --unit UNIT'
      : `give ${found.map((i) => `--voltage ${asOption(names, i)}`).join(' or ')}`,
  );
  return null;
}

/** Columns that differ in their number only. Where a name stands twice nobody knows what the second one is. */
function areOfOneKind(names: readonly string[], indices: readonly number[]): boolean {
  return areNumbered(indices.map((i) => names[i]!)) && !indices.some((i) => isRepeated(names, i));
}

function amperesIn(names: readonly string[], index: number, choice: PowerChoice): number | null {
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

function wattsIn(names: readonly string[], index: number, choice: PowerChoice): number | null {
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
function meetOther(
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
