/** How much current heats a bar by how much in still air: "Copper for Busbars", CDA publication 22, 1996, sections 3 and 10. */
import { power } from '../base/power.ts';
import type { Bars } from './bars.ts';

/** The rise that ratings are stated for, over surroundings of 40 °C. */
export const ratedRise_K = 50;
/** A bar's current over its temperature rise: I ∝ ΔT^0.61. */
export const riseExponent = 0.61;

/** What several bars of a pole carry over one alone, gaps as wide as a bar is thick; between the rows on straight lines. */
const together: readonly (readonly [bars: number, times: number])[] = [
  [1, 1],
  [2, 1.8],
  [3, 2.5],
  [4, 3.2],
  [5, 3.9],
  [6, 4.4],
  [8, 5.5],
  [10, 6.5],
];
export const mostBars = 10;

/** Flat bar on edge: 7.73 A^0.5 p^0.39, section in mm², perimeter in mm. */
export function flatBarRating_A(width_mm: number, thickness_mm: number): number {
  return 7.73 * Math.sqrt(width_mm * thickness_mm) * power(2 * (width_mm + thickness_mm), 0.39);
}

/** Of a pole of flat bars on edge in still air. Throws RangeError for more bars than the publication tells of. */
export function stillRating_A({ width_m, thickness_m, count }: Bars): number {
  return timesOf(count) * flatBarRating_A(1e3 * width_m, 1e3 * thickness_m);
}

function timesOf(count: number): number {
  const above = together.findIndex(([bars]) => bars >= count);
  if (above < 0) throw new RangeError(`a pole of ${count} bars`);
  const [bars, times] = together[above]!;
  if (bars === count) return times;
  const [fewer, less] = together[above - 1]!;
  return less + ((times - less) * (count - fewer)) / (bars - fewer);
}

/** Rise of a bar in still air: ΔT = 50 K (I/I_50)^(1/0.61), with I_50 the current that heats it by 50 K. */
export function steadyRise_K(rms_A: number, rated_A: number): number {
  return ratedRise_K * power(rms_A / rated_A, 1 / riseExponent);
}
