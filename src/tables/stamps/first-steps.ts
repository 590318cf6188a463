/** What the steps between the first stamps say of their unit. */
import { perSecondOf, type TimeUnit } from './time-unit.ts';

/** Days from 1900 on, as spreadsheets count them: 1982 to 2119, less than 15 minutes apart. */
export function areDays(numbers: readonly number[]): boolean {
  return numbers.every((value) => value > 30_000 && value < 80_000) && meanStep(numbers) < 0.01;
}

/** Longest step of a load's readings that nobody asks about, where it is no whole number of minutes. */
const longestStep_s = 600;

/** Step of whole numbers that a unit makes far apart, as counts of a clock are under the name of another [s]; null: near. */
export function farApart(numbers: readonly number[], unit: TimeUnit): number | null {
  if (numbers.length < 2 || !numbers.every(Number.isInteger)) return null;
  const step_s = meanStep(numbers) / perSecondOf(unit);
  return step_s > longestStep_s && step_s % 60 !== 0 ? Number(step_s.toPrecision(4)) : null;
}

export function meanStep(numbers: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < numbers.length; i++) sum += Math.abs(numbers[i]! - numbers[i - 1]!);
  return numbers.length < 2 ? 0 : sum / (numbers.length - 1);
}
