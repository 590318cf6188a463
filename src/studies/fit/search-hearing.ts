/**
 * A search, and the noise that it is held against. In a file alone a curve that bends from sample to sample is heard as
 * noise (a sine of 160 Hz at 1 kHz: 1.6 times what the instrument has). Gain and bias are weighed against it: too much
 * noise holds them closer to nominal than their class does, by the same factor, and intervals are too narrow. Beside a
 * model that shows the bends noise is heard as it is: before the search with the present values, and after it with those
 * found; where it is clearly less then, the search goes on from there.
 */
import { noiseOf } from '../../measured/noise.ts';
import type { Box } from './box.ts';
import { type Compared, comparedBy } from './compared.ts';
import type { Residuals } from './residuals.ts';
import type { RunAt } from './runs.ts';
import { type Searched, searchFrom } from './search.ts';

/** Noise below this share of what was taken is worth another search: its estimate is good to some five per cent. */
const clearlyLess = 0.9;

export interface Hearing {
  readonly box: Box;
  readonly runAt: RunAt;
  /** With this noise of each channel; null: by the file alone. */
  readonly residualsWith: (noise: readonly number[] | null) => Residuals;
  readonly onIteration?: ((iteration: number, error: number) => void) | undefined;
}

export interface FoundBesideNoise {
  readonly found: Searched;
  readonly compared: Compared;
}

export async function searchHearing(
  start: readonly number[],
  { box, runAt, residualsWith, onIteration }: Hearing,
): Promise<FoundBesideNoise> {
  const heardAt = async (values: readonly number[], residuals: Residuals): Promise<number[]> => {
    const curves = await runAt(values);
    return heardBeside(residuals, residuals.simulated(curves, residuals.of(curves).later_s));
  };
  const searchWith = async (from: readonly number[], noise: readonly number[]): Promise<FoundBesideNoise> => {
    const compared = comparedBy(residualsWith(noise), runAt);
    const { residuals, leftAt } = compared;
    const rms = (sum: number): number => Math.sqrt(sum / residuals.points.length);
    return {
      compared,
      found: await searchFrom(from, box, leftAt, (k, sum) => onIteration?.(k, rms(sum))),
    };
  };
  const first = await searchWith(start, await heardAt(start, residualsWith(null)));
  const { found, compared } = first;
  const heard = await heardAt(found.values, compared.residuals);
  const isQuieter = heard.some((noise, c) => noise < clearlyLess * compared.residuals.noise[c]!);
  return isQuieter ? await searchWith(found.values, heard) : first;
}

/** Noise of each channel beside what the model shows, and no more than was taken: a wrong model adds bends of its own. */
function heardBeside(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  simulated: Float64Array,
): number[] {
  return noise.map((taken, c) => {
    const shown = points.flatMap(({ channel }, i) =>
      channel === c && !Number.isNaN(simulated[i]!) ? [i] : [],
    );
    const measured = Float64Array.from(shown, (i) => points[i]!.value);
    const curve = Float64Array.from(shown, (i) => simulated[i]!);
    return Math.min(taken, noiseOf(measured, curve));
  });
}
