import { formatPercent } from '../../base/quantity.ts';

/** A headroom, or that there is none left: a value on its limit is kept. */
export function headroomWords(ratio: number): string {
  return ratio === 0 ? 'at the limit' : formatPercent(ratio, 2);
}
