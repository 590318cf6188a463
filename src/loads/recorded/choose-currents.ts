/** Columns of current, each with the voltage that it is multiplied by, where no column is a power. */
import { readQuantity } from '../../base/quantity.ts';
import { voltageUnitIn, voltsOf } from '../../tables/cells/power-unit.ts';
import { saysCurrent, saysVoltage } from '../../tables/columns/column-names.ts';
import { asOption, columnLabel, findColumn, quotedName } from '../../tables/columns/column-report.ts';
import { alternating } from './alternating.ts';
import { amperesIn, meetOther } from './column-units.ts';
import {
  areOfOneKind,
  type PowerChoice,
  type PowerColumn,
  reportMany,
  type VoltageOf,
} from './power-choice.ts';

/** No column says power: a current and its voltage do as well. */
export function byCurrent(names: readonly string[], choice: PowerChoice): PowerColumn[] {
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

export function currents(
  names: readonly string[],
  indices: readonly number[],
  choice: PowerChoice,
): PowerColumn[] {
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
