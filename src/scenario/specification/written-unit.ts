/** The unit that a specification writes a bound in: as a limit's row takes it, and how much of that it is. */
import { exampleOf, readQuantity } from '../../base/quantity.ts';
import type { LimitQuantity } from '../limit-quantities.ts';
import { limitUnits } from '../sections/limit-rows.ts';
import { listed } from '../text/nearest.ts';
import type { Bound, Unread } from './bound.ts';

export interface WrittenUnit {
  /** Unit of the limit's row, and the number as that row writes it. */
  readonly rowUnit: string;
  readonly text: string;
  /** In the row's unit. */
  readonly value: number;
  readonly per_unit: number;
}

/** Units that say that a number has none. */
export const plainUnits: readonly string[] = ['', '1', 'ratio', 'count'];

/** What shares and counts may be written in: per cent or a plain number, said as such. */
const shares: Readonly<Record<string, number>> = { '%': 0.01, '1': 1, ratio: 1 };
const sharesPerSecond: Readonly<Record<string, number>> = { '%/s': 0.01, '1/s': 1 };

export function readWrittenUnit({ number, unit }: Bound, quantity: LimitQuantity): WrittenUnit | Unread {
  const ofShare = sharesOf(quantity);
  const share = Object.hasOwn(ofShare, unit) ? ofShare[unit]! : null;
  if (share !== null) {
    const percent = share !== 1;
    const read = readQuantity(percent ? `${number} %` : number, 'ratio');
    if (!read.ok) return [read.found, read.expected, read.mend];
    const rowUnit = quantity.unit === 'W/s' ? '1/s' : 'ratio';
    return { rowUnit, text: percent ? `${number} %` : number, value: read.value, per_unit: share };
  }
  const expected = `a unit: ${unitsOf(quantity)}`;
  if (unit === '' && quantity.unit !== 'count')
    return [`${number} without a unit`, expected, 'write the unit behind the number, or in the column unit'];
  if (quantity.unit === 'ratio') return [`${number} ${unit}`, expected, 'write it as a share of the rating'];
  const dimension = limitUnits[quantity.unit]!;
  const isCount = quantity.unit === 'count' && ['', 'count', '1'].includes(unit);
  const text = isCount ? number : `${number} ${unit}`;
  const read = readQuantity(text, dimension);
  const one = readQuantity(isCount ? '1' : `1 ${unit}`, dimension);
  if (!read.ok) return [read.found, expected, read.mend];
  if (!one.ok) return [one.found, expected, one.mend];
  return { rowUnit: quantity.unit, text, value: read.value, per_unit: one.value };
}

/** Units of shares that a bound may be written in, each with how much of one it is. */
function sharesOf({ unit, share_of }: LimitQuantity): Readonly<Record<string, number>> {
  if (unit !== 'ratio' && share_of === null) return {};
  return unit === 'W/s' ? sharesPerSecond : shares;
}

/** What a bound may be written in: `1, %, ratio or 50.25 V`. */
export function unitsOf(quantity: LimitQuantity): string {
  const { unit } = quantity;
  const own = unit === 'ratio' ? [] : unit === 'count' ? ['count'] : [exampleOf(limitUnits[unit]!)];
  return listed([...Object.keys(sharesOf(quantity)), ...own]);
}
