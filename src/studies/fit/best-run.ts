/** The run that agrees best with a measurement as it was placed, and how what is left of it is to be read. */
import type { Curves } from '../../measured/curve/curve.ts';
import type { Measurement } from '../../measured/measurement.ts';
import type { Box } from './box.ts';
import { type ClockShare, clockShare, clockStep } from './clock.ts';
import type { Compared } from './compared.ts';
import { type Confidence, confidenceOf, studentFactor } from './confidence.ts';
import { independentVariance } from './independent-variance.ts';
import { type LeftOver, type Misfit, misfitsOf, whitenessByChannel } from './misfit.ts';
import type { FirstPlace } from './points.ts';
import { type Placed, residualsOf } from './residuals.ts';
import type { RunAt } from './runs.ts';
import type { Searched } from './search.ts';
import { searchHearing } from './search-hearing.ts';

export interface BestRunCase {
  readonly measurement: Measurement;
  /** With the present values. */
  readonly first: Curves;
  readonly box: Box;
  readonly runAt: RunAt;
  readonly onIteration?: ((iteration: number, error: number) => void) | undefined;
}

export interface BestRun {
  readonly found: Searched;
  readonly compared: Compared;
  /** Where the measurement was placed for it. */
  readonly firstPlace: FirstPlace;
  readonly place: Placed;
  readonly best: Curves;
  readonly over: LeftOver;
  readonly misfit: readonly Misfit[];
  /** Of an independent residual. */
  readonly variance: number;
  /** Student's, for 95 %. */
  readonly factor: number;
  readonly sharp: Confidence;
  readonly share: ClockShare;
}

/** `taken_ratio`: how much faster than placing left them the stamps are taken to run. */
export async function bestRun(
  { measurement, first, box, runAt, onIteration }: BestRunCase,
  start: readonly number[],
  firstPlace: FirstPlace,
  taken_ratio: number,
): Promise<BestRun> {
  const { found, compared } = await searchHearing(start, {
    box,
    runAt,
    residualsWith: (noise) => residualsOf(measurement, first, firstPlace, noise),
    onIteration,
  });
  const { residuals, placedAt } = compared;
  const { left, sensitivities, values, sumAfter: sum } = found;
  const place = await placedAt(values);
  const best = await runAt(values);
  const whiteness = whitenessByChannel(residuals, left);
  const over = {
    left,
    found: residuals.simulated(best, place.later_s),
    present: residuals.simulated(first, 0),
  };
  const placeFreedom = firstPlace.within_s === 0 ? 0 : 1;
  const freedom = Math.max(1, residuals.points.length - values.length - placeFreedom);
  const variance = independentVariance(residuals, { sum, freedom, whiteness });
  return {
    found,
    compared,
    firstPlace,
    place,
    best,
    over,
    misfit: misfitsOf(residuals, over, whiteness, measurement.columns),
    variance,
    factor: studentFactor(freedom),
    sharp: confidenceOf(sensitivities, variance),
    share: clockShare({
      left,
      // Stamps that run faster are read on a slower clock of the run.
      faster: residuals.of(best, -clockStep).left,
      slower: residuals.of(best, clockStep).left,
      sensitivities,
      variance,
      known_ratio: firstPlace.rate_error_ratio,
      taken_ratio,
    }),
  };
}
