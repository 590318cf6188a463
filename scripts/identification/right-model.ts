import { Random } from '../../src/loads/random.ts';
import { isNoise } from '../../src/studies/fit/judge.ts';
import type { IdentificationBench } from './benches.ts';
import { fitted } from './fitted.ts';
import { type Instruments, measuredOn, withExactInstruments } from './measured.ts';
import { stepsWith } from './simulated.ts';
import { truthsOf } from './truths.ts';

/** Intervals that hold the truth, of those that were given. */
interface Held {
  readonly held: number;
  readonly of: number;
}

export interface Covered extends Held {
  readonly path: string;
  /** The same of the linear ones. */
  readonly linearHeld: number;
}

/**
 * Fits to noisy repetitions of the bench as it truly is; every other one with its place in time fitted as well. Exact
 * instruments are declared as such; others are off within their class, and their clock as usual ones are.
 */
export async function rightModel(
  asBuilt: IdentificationBench,
  seeds: readonly number[],
  instruments: Instruments,
): Promise<{ readonly parameters: readonly Covered[]; readonly place: Held; readonly refused: number }> {
  const bench = instruments === 'exact' ? withExactInstruments(asBuilt) : asBuilt;
  const truth = stepsWith(bench, bench.truth);
  const truths = truthsOf(bench);
  const tallies = truths.map(({ path, value }) => ({ path, value, held: 0, linearHeld: 0, of: 0 }));
  const place = { held: 0, of: 0 };
  let refused = 0;
  for (const seed of seeds) {
    const report = await fitted(bench, measuredOn(bench, truth, new Random(seed), instruments), {
      placeGiven: seed % 2 === 0,
      suspected: false,
      clock: instruments === 'exact' ? 'exact' : 'usual',
    });
    if (!isNoise(report)) refused++;
    if (report.measured_at_interval_s !== null) {
      place.of++;
      if (holds(report.measured_at_interval_s, bench.at_s)) place.held++;
    }
    for (const tally of tallies) {
      const { interval, linear_interval } = report.result[tally.path]!;
      if (interval === null) continue;
      tally.of++;
      if (holds(interval, tally.value)) tally.held++;
      if (holds(linear_interval, tally.value)) tally.linearHeld++;
    }
  }
  return { parameters: tallies, place, refused };
}

export function holds(interval: readonly [number, number] | null, value: number): boolean {
  return interval !== null && interval[0] <= value && value <= interval[1];
}
