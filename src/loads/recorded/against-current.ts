/** A power beside the current and the voltage of the same rows, which must multiply to it. */
import { type Decimal, readNumberCell } from '../../tables/cells/number-cell.ts';
import { amperesOf, currentUnitIn, inWatts, voltageUnitIn, voltsOf } from '../../tables/cells/power-unit.ts';
import { isPowerFactor, saysCurrent, saysPower, saysVoltage } from '../../tables/columns/column-names.ts';

/** Of meters of their own: their errors, and that they read at other instants. */
const alike_ratio = 0.05;
/** On the AC side without a power factor the real power is lower by it. */
const leastFactor = 0.3;
/** Rows that deviate by so much of the mean do not belong to each other. */
const apart_ratio = 0.3;
const fewest = 20;

export interface SiColumn {
  readonly index: number;
  readonly name: string;
  /** SI of one of its unit. */
  readonly si: number;
}

/** One current, one voltage and perhaps a power factor among columns that are not read; null where there is no such pair. */
export function besideOf(names: readonly string[], unused: readonly string[]): readonly SiColumn[] | null {
  const called = (says: (name: string) => boolean, siOf: (name: string) => number | null): SiColumn[] =>
    names.flatMap((name, index) =>
      unused.includes(name) && !saysPower(name) && says(name) ? [{ index, name, si: siOf(name) ?? 1 }] : [],
    );
  const currents = called(saysCurrent, (name) => amperesOf(currentUnitIn(name) ?? ''));
  const voltages = called(saysVoltage, (name) => voltsOf(voltageUnitIn(name) ?? ''));
  const factors = called(isPowerFactor, () => 1);
  if (currents.length !== 1 || voltages.length !== 1 || factors.length > 1) return null;
  return [...currents, ...voltages, ...factors];
}

export class AgainstCurrent {
  private readonly beside: readonly SiColumn[];
  private readonly decimal: Decimal;
  private rows = 0;
  private power_W = 0;
  private product_W = 0;
  /** Of each row the larger less the smaller, by the ratio of the sums so far. */
  private apart_W = 0;

  constructor(beside: readonly SiColumn[], decimal: Decimal) {
    this.beside = beside;
    this.decimal = decimal;
  }

  /** `power_W`: of the row, all its channels. */
  meet(row: readonly string[], power_W: number): void {
    let product_W = 1;
    for (const column of this.beside) product_W *= this.valueOf(row, column);
    if (!Number.isFinite(product_W + power_W)) return;
    this.rows++;
    this.power_W += power_W;
    this.product_W += product_W;
    if (this.product_W !== 0) this.apart_W += Math.abs(power_W - (this.power_W / this.product_W) * product_W);
  }

  /** A sentence where they do not multiply to it. `isAlternating`: on the AC side a power factor may be left out. */
  warning(power: string, isAlternating: boolean): string[] {
    if (this.rows < fewest || !(this.power_W > 0) || !(this.product_W > 0)) return [];
    const ratio = this.power_W / this.product_W;
    const least = isAlternating && this.beside.length === 2 ? leastFactor : 1 - alike_ratio;
    const isAlike = ratio > least && ratio < 1 + alike_ratio;
    const product = this.beside.map(({ name }) => name).join(' × ');
    if (!isAlike)
      return [
        `${power} is ${Number(ratio.toPrecision(3))} times ${product} of the same rows: a unit or a place of one of them is another, or one is wrong.`,
      ];
    if (this.apart_W > apart_ratio * this.power_W)
      return [
        `${power} does not follow ${product} of the same rows, though their means agree: one of them is wrong.`,
      ];
    return [];
  }

  private valueOf(row: readonly string[], { index, si }: SiColumn): number {
    const cell = readNumberCell(row[index] ?? '', this.decimal);
    return cell.kind === 'number' && cell.unit === null ? inWatts(cell.value, si) : Number.NaN;
  }
}
