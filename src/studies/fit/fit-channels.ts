/** What a fit says of each measured channel: its noise, what was off before and after, by band and over time. */
import type { Measurement } from '../../measured/measurement.ts';
import { type Scale, scaleOf } from '../../measured/scale.ts';
import { fitBands } from './fit-bands.ts';
import type { FitReport } from './fit-report.ts';
import { laidCurves } from './laid-curves.ts';
import type { Residuals } from './residuals.ts';

/** `before`, `left`: what was off at the start and at the answer, over the noise; `over`: curves to lay over. */
export function channelsOf(
  measurement: Measurement,
  residuals: Residuals,
  {
    before,
    left,
    over,
  }: {
    readonly before: Float64Array;
    readonly left: Float64Array;
    readonly over: Parameters<typeof laidCurves>[1];
  },
): FitReport['channels'] {
  const { points } = residuals;
  return measurement.columns.map(({ channel }, c) => ({
    channel,
    unit: /_([A-Za-z]+)$/.exec(channel)?.[1] ?? '',
    samples: points.filter((point) => point.channel === c).length,
    noise: residuals.noise[c]!,
    rms_before: rmsOf(before, residuals, c),
    rms_after: rmsOf(left, residuals, c),
    bands: fitBands(residuals, { before, after: left }, c),
    laid: laidCurves(points, over, c),
    scale: scaleIn(points, over.found, c),
  }));
}

function scaleIn(points: Residuals['points'], simulated: Float64Array, channel: number): Scale {
  const inside = points.flatMap((point, i) => (point.channel === channel ? [i] : []));
  return scaleOf(
    Float64Array.from(inside, (i) => points[i]!.value),
    Float64Array.from(inside, (i) => simulated[i]!),
  );
}

function rmsOf(left: Float64Array, { points, noise }: Residuals, channel: number): number {
  let [sum, count] = [0, 0];
  points.forEach((point, i) => {
    if (point.channel !== channel) return;
    sum += left[i]! ** 2;
    count++;
  });
  return count === 0 ? 0 : Math.sqrt(sum / count) * noise[channel]!;
}
