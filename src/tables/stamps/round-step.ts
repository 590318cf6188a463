/** Steps of stamps that are a round number in one unit and not in another: what people set a logger to is round. */
import { perSecondOf } from './time-unit.ts';

/** Digits that a step begins with where somebody chose it. */
const roundDigits = [1, 1.25, 2, 2.5, 4, 5, 8, 10];
/** A mean step over some hundred stamps is known to this share. */
const alike_ratio = 2e-3;

/** The longer unit in which stamps step by a round number although they do not in seconds; null where none is. */
export function roundInLonger(
  numbers: readonly number[],
): { readonly unit: 'min' | 'h' | 'd'; readonly step_s: string; readonly round: string } | null {
  const steps = numbers.slice(1).map((value, i) => value - numbers[i]!);
  const forward = steps.filter((step) => step > 0);
  if (forward.length < 2 || steps.some((step) => step < 0)) return null;
  const step = forward.reduce((sum, one) => sum + one, 0) / forward.length;
  if (isRound(step)) return null;
  const unit = (['min', 'h', 'd'] as const).find((longer) => isRound(step / perSecondOf(longer)));
  if (unit === undefined) return null;
  return {
    unit,
    step_s: digits(step),
    round: `${digits(step / perSecondOf(unit))} s if they count ${{ min: 'minutes', h: 'hours', d: 'days' }[unit]}`,
  };
}

function isRound(value: number): boolean {
  let mantissa = value;
  while (mantissa >= 10) mantissa /= 10;
  while (mantissa < 1) mantissa *= 10;
  return roundDigits.some((round) => Math.abs(mantissa / round - 1) < alike_ratio);
}

function digits(value: number): string {
  return String(Number(value.toPrecision(4)));
}
