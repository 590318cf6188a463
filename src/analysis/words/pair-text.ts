/** A value and its limit, side by side, for people: two numbers that differ never print alike. */

import type { Finding } from '../judge/report.ts';
import { isTie } from '../judge/tie.ts';
import { numberText } from './number-text.ts';

/** Digits of a value that is not close to its limit, and the most that are ever needed to tell the two apart. */
const usual = 4;
const most = 9;

/** Texts of value and limit; empty where there is none. */
export function pairText({
  value,
  limit,
  unit,
}: Pick<Finding, 'value' | 'limit' | 'unit'>): [string, string] {
  if (value === null || limit === null) {
    return [value === null ? '' : numberText(value, unit), limit === null ? '' : numberText(limit, unit)];
  }
  for (let digits = usual; digits <= most; digits++) {
    const pair: [string, string] = [numberText(value, unit, digits), numberText(limit, unit, digits)];
    if (pair[0] !== pair[1]) return pair;
    if (isTie(value, limit)) return pair;
  }
  return [numberText(value, unit, most), numberText(limit, unit, most)];
}

/** A share of the allowed deviation: whole per cent, more digits where that would say 0, or `at the limit`. */
export function headroomText(ratio: number): string {
  if (ratio === 0) return 'at the limit';
  const percent = 100 * ratio;
  const shown = Math.abs(percent) < 1 ? Number(percent.toPrecision(1)) : Number(percent.toFixed(0));
  return `${shown} %`;
}
