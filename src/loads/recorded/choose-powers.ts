import { saysPower } from '../../tables/columns/column-names.ts';
import { asOption, type ColumnReport, columnLabel, findColumn } from '../../tables/columns/column-report.ts';
import { otherBound } from './bounds.ts';
import { byCurrent, currents } from './choose-currents.ts';
import { wattsIn } from './column-units.ts';
import { neverLoad } from './derived-names.ts';
import { areOfOneKind, measuredOf, type PowerChoice, type PowerColumn, reportMany } from './power-choice.ts';

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
    indices = withoutBounds(names, indices, inferred);
    const found = indices.map((i) => columnLabel(names, i));
    if (indices.length === 0) return byCurrent(names, choice);
    if (found.length > 1 && found.every((name) => otherBound(name, found) !== null)) {
      report(
        `${found.join(', ')}: by their names the bounds of one power, of which none is the load`,
        'the power that was drawn, as a mean or at an instant',
        `export the mean, or give --power ${asOption(names, indices[0]!)} --overrule to play one of the bounds`,
      );
      return [];
    }
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

/** A power beside its own bounds and its spread is the one that was drawn. */
function withoutBounds(names: readonly string[], indices: number[], inferred: string[]): number[] {
  const all = indices.map((i) => names[i]!);
  const isDrawn = (name: string): boolean => otherBound(name, all) === null && neverLoad([name]) === null;
  const drawn = indices.filter((i) => isDrawn(names[i]!));
  if (drawn.length !== 1 || indices.length === 1) return indices;
  const left = all.filter((name) => !isDrawn(name));
  inferred.push(`Not taken: ${left.join(', ')}, by name what bounds it, limits it or spreads about it.`);
  return drawn;
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
