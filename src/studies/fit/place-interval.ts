import type { Box } from './box.ts';
import type { Confidence } from './confidence.ts';

/** How the place of a measurement was found together with the values. */
export interface FittedPlace {
  /** Time of the run at the first stamp [s]. */
  readonly at_s: number;
  /** How far it can be moved until the sum of squares has grown by what noise explains, the values kept, and by its clock [s]; null: anywhere. */
  readonly reach_s: number | null;
  /** How the place follows each value, over its box [s]. */
  readonly byValue_s: readonly number[];
}

/**
 * 95 % interval of the place: what noise leaves open with the values kept, and what their own intervals add to it,
 * Σ (dτ/dv_a)(dτ/dv_b) cov(v_a, v_b). null where it, or a value that it follows, is not bounded.
 */
export function placeInterval(
  { at_s, reach_s, byValue_s }: FittedPlace,
  { halfWidths, correlation }: Pick<Confidence, 'halfWidths' | 'correlation'>,
): readonly [number, number] | null {
  if (reach_s === null) return null;
  let square = reach_s * reach_s;
  for (let a = 0; a < byValue_s.length; a++) {
    for (let b = 0; b < byValue_s.length; b++) {
      if (byValue_s[a] === 0 || byValue_s[b] === 0) continue;
      const [half_a, half_b, together] = [halfWidths[a], halfWidths[b], correlation[a]?.[b]];
      if (half_a == null || half_b == null || together == null) return null;
      square += byValue_s[a]! * byValue_s[b]! * half_a * half_b * together;
    }
  }
  const half_s = Math.sqrt(Math.max(0, square));
  return [at_s - half_s, at_s + half_s];
}

/** Half width of a difference, of the box. */
const step = 0.01;

/** How a place follows each value, by a difference to either side [s]. */
export async function followed(
  box: Box,
  values: readonly number[],
  laterAt: (values: readonly number[]) => Promise<number>,
): Promise<number[]> {
  const slopes: number[] = [];
  for (let j = 0; j < values.length; j++) {
    const by = Math.max(step, box.spacing[j]!);
    const moved = (to: number): number[] => box.snapped(values.map((v, k) => (k === j ? to : v)));
    const above = moved(Math.min(1, values[j]! + by));
    const below = moved(Math.max(0, values[j]! - by));
    const apart = above[j]! - below[j]!;
    slopes.push(apart > 0 ? ((await laterAt(above)) - (await laterAt(below))) / apart : 0);
  }
  return slopes;
}
