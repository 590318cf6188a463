import type { Box } from './box.ts';
import type { Base } from './faults/left-without.ts';
import type { Runs } from './runs.ts';

/** How far each value is moved for a slope, of its range: beyond the stairs of a simulation. */
const step = 0.05;

/** A run with these values, and with each of them moved: what faults of the recording are weighed beside. */
export async function baseAt({ at }: Runs, box: Box, values: readonly number[]): Promise<Base> {
  const beside = [];
  for (const [j, value] of values.entries()) {
    const by = (value > 0.5 ? -1 : 1) * Math.max(step, box.spacing[j]!);
    const moved = box.snapped(values.map((v, k) => (k === j ? v + by : v)));
    beside.push({ by: moved[j]! - value, curves: await at(moved) });
  }
  return { curves: await at(values), values, beside };
}
