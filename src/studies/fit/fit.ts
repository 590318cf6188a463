import { formatQuantity } from '../../base/quantity.ts';
import type { Curves } from '../../measured/curve/curve.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { mistakenColumns } from '../../measured/mistaken-columns.ts';
import type { Change } from '../../scenario/scenario.ts';
import { type Adjusted, onGrid } from './adjusted.ts';
import { baseAt } from './base-at.ts';
import { besideClock } from './beside-clock.ts';
import { boxOf } from './box.ts';
import { beyondClock, clockOfFit } from './clock.ts';
import { weighedFaults } from './faults/weigh.ts';
import { channelsOf } from './fit-channels.ts';
import type { FitReport } from './fit-report.ts';
import { changeOf, resultOf } from './fit-result.ts';
import { hiddenDrifts } from './hidden-drift.ts';
import { followed, placeInterval } from './place-interval.ts';
import { type FirstPlace, refuseFew } from './points.ts';
import { profilesOf } from './profiles.ts';
import { residualsOf, sumOf } from './residuals.ts';
import { restsOn } from './rests-on.ts';
import { runsOf } from './runs.ts';
import { suspectsOf } from './suspects.ts';
import { wouldExplain } from './would-explain.ts';

export interface FitCase {
  readonly adjusted: readonly Adjusted[];
  readonly measurement: Measurement;
  /** Runs with these changes; the measured channels must be among its curves. */
  readonly run: (changes: readonly Change[]) => Promise<Curves>;
  /** Time of the run at which the file's first stamp lies: known, or found by comparing and fitted with the rest. */
  readonly place: FirstPlace;
  /** Parameters that are not adjusted: a misfit is tried on them, and what was found may rest on them. */
  readonly suspects?: readonly Adjusted[];
  readonly onIteration?: (iteration: number, error: number) => void;
}

/**
 * Adjusts parameters within their ranges so that the run agrees best with the measurement: least squares of
 * (measured − simulated)/noise over all channels, as far as gain and bias within the class of each instrument do not
 * explain it, the noise of each taken from its own second differences; from several starts, the last of it by values.
 * Intervals are given where what is left is noise.
 */
export async function fitParameters(fit: FitCase): Promise<FitReport> {
  const { adjusted, measurement, run, suspects = [], onIteration } = fit;
  const changesAt = (values: readonly number[], more: readonly Change[] = []): Change[] => [
    ...adjusted.map((parameter, j) => changeOf(parameter, values[j]!)),
    ...more,
  ];
  const start = adjusted.map(({ start: value, low, high }) => (value - low) / (high - low));
  const box = boxOf(adjusted);
  const runs = runsOf(run, changesAt);
  const first = await runs.at(start);
  refuseFew(residualsOf(measurement, first, fit.place).points, measurement);
  const bestRun = await besideClock(
    { measurement, first, box, runAt: runs.at, onIteration },
    start,
    fit.place,
  );
  const { found, compared, firstPlace, place, best, over, misfit, variance, factor, sharp, share } = bestRun;
  const { residuals, placedAt, leftAt } = compared;
  const { points } = residuals;
  const rms = (sum: number): number => Math.sqrt(sum / points.length);
  const { left, sensitivities, values, sumAfter: sum } = found;
  const before = await leftAt(start);
  const given = firstPlace.within_s === 0;
  const isRight = misfit.length === 0 && !share.clock.is_off;
  const byClock = share.moves.map((move) => factor * Math.abs(move) * share.spread_ratio);
  const sure = beyondClock(sharp, byClock);
  const most = sum + factor ** 2 * variance;
  const { profiles, open } = isRight
    ? await profilesOf({ ...found, sum, variance, factor, box, byClock }, place, sharp, placedAt)
    : { profiles: adjusted.map(() => null), open: false };
  const leftWith = (candidate: Adjusted, value: number): Promise<Float64Array> => {
    const text = formatQuantity(onGrid(candidate, value), candidate.dimension);
    return leftAt(values, [{ path: candidate.path, value: text }]);
  };
  const would_explain =
    misfit.length === 0
      ? []
      : wouldExplain(
          [
            ...weighedFaults({
              measurement,
              residuals,
              left,
              sensitivities,
              place: firstPlace,
              later_s: place.later_s,
              bases: [await baseAt(runs, box, values), await baseAt(runs, box, start)],
            }),
            ...(await suspectsOf(suspects, left, sensitivities, leftWith)),
          ],
          { square: sum / points.length, count: points.length },
        );
  const { halfWidths } = sure;
  const rests_on = isRight
    ? await restsOn({ adjusted, halfWidths, left, sensitivities }, suspects, leftWith)
    : [];
  const hidden_drifts = isRight
    ? hiddenDrifts({
        adjusted,
        halfWidths,
        left,
        sensitivities,
        variance,
        columns: measurement.columns,
        leftOf: (columns) =>
          residualsOf({ ...measurement, columns }, first, firstPlace, residuals.noise).of(best).left,
      })
    : [];
  const fittedPlace = async () => {
    const laterAt = async (moved: readonly number[]) => (await placedAt(moved)).later_s;
    const byValue_s = await followed(box, values, laterAt);
    const kept_s = residuals.open_s(best, place, most);
    const byClock_s = factor * share.spread_ratio * residuals.lever_s(best, place);
    const reach_s = kept_s === null ? null : Math.hypot(kept_s, byClock_s);
    return placeInterval({ at_s: firstPlace.at_s + place.later_s, reach_s, byValue_s }, sharp);
  };
  const measured_at_interval_s = given || !isRight || open ? null : await fittedPlace();
  const name = (j: number): string => adjusted[j]!.path;
  return {
    doubts: [...measurement.warnings, ...mistakenColumns(measurement.columns, first)],
    result: Object.fromEntries(
      adjusted.map((parameter, j) => [
        parameter.path,
        resultOf(parameter, values[j]!, profiles[j] == null ? null : sure, j, profiles[j] ?? null),
      ]),
    ),
    error_before: rms(sumOf(before)),
    error_after: rms(sum),
    profile_end: factor,
    channels: channelsOf(measurement, residuals, { before, left, over }),
    cannot_tell_apart: sure.together.map((group) => group.map(name)),
    without_effect: sure.withoutEffect.map(name),
    correlation: Object.fromEntries(
      sure.correlation.map((row, a) => [name(a), Object.fromEntries(row.map((r, b) => [name(b), r]))]),
    ),
    condition: Number.isFinite(sure.condition) ? sure.condition : null,
    misfit,
    would_explain,
    clock: clockOfFit(share, firstPlace, adjusted, halfWidths),
    rests_on,
    hidden_drifts,
    searches: found.searches.map(({ from, to }) => ({ from: rms(from), to: rms(to) })),
    measured_at_s: firstPlace.at_s + place.later_s,
    measured_at_interval_s,
    measured_at_open: open,
    iterations: found.iterations,
    runs: runs.count(),
    converged: found.converged,
    changes: changesAt(values),
  };
}
