/**
 * Whether readings stop at a largest or a smallest value that the simulated channel goes beyond: an instrument at the end
 * of its range. They stand there, to within a step of their rounding, while the simulated ones move.
 */
import { numberText } from '../../analysis/words/number-text.ts';
import type { MeasuredUnit } from '../../measured/measured-unit.ts';
import { gridOf } from '../../measured/rounding.ts';

/** Rows at the end, of all; fewer are a peak. */
const leastRows = 0.02;
const fewest = 5;
/** Of these rows, those where the simulated channel lies beyond. */
const leastBeyond = 0.8;
/** The simulated channel goes beyond, and moves there, by more than so many deviations of noise. */
const clearly = 3;

export interface Clipped {
  readonly end: 'largest' | 'smallest';
  readonly at: number;
  readonly rows: number;
}

/** Null where nothing is cut off. */
export function clippedAt(measured: Float64Array, simulated: Float64Array, noise: number): Clipped | null {
  const { step } = gridOf(measured);
  for (const side of [1, -1]) {
    const at = measured.reduce((most, m) => Math.max(most, side * m), Number.NEGATIVE_INFINITY);
    const rows = [...measured.keys()].filter((i) => at - side * measured[i]! <= step / 2);
    if (rows.length < Math.max(fewest, leastRows * measured.length)) continue;
    const above = rows.map((i) => side * simulated[i]! - at).filter((d) => !Number.isNaN(d));
    const beyond = above.filter((d) => d > clearly * noise).length;
    const [low, high] = [Math.min(...above), Math.max(...above)];
    if (beyond >= leastBeyond * rows.length && high - low > clearly * noise + step)
      return { end: side > 0 ? 'largest' : 'smallest', at: side * at, rows: rows.length };
  }
  return null;
}

export function clippedWords({ end, at, rows }: Clipped, unit: MeasuredUnit): string {
  return `clipped: ${rows} readings stand flat at the ${end} value, ${numberText(at, unit)}, where the simulated channel goes beyond`;
}
