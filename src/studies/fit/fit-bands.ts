import { errorBands } from '../../measured/errors.ts';
import type { FitBand } from './fit-report.ts';
import type { Residuals } from './residuals.ts';

/** What is left of every point over the noise, with the present values and with those found. */
export interface LeftOfBoth {
  readonly before: Float64Array;
  readonly after: Float64Array;
}

/** What is left of a channel by band, before and after, in its unit. */
export function fitBands(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  { before, after }: LeftOfBoth,
  channel: number,
): readonly FitBand[] {
  const own = points.flatMap((point, i) => (point.channel === channel ? [i] : []));
  const [first, last] = [points[own[0]!]!.time_s, points[own.at(-1)!]!.time_s];
  const rate_Hz = (own.length - 1) / (last - first);
  const bandsOf = (left: Float64Array) =>
    errorBands(
      Float64Array.from(own, (i) => left[i]! * noise[channel]!),
      rate_Hz,
    );
  const later = bandsOf(after);
  return bandsOf(before).map(({ low_Hz, high_Hz, rms }, k) => {
    return { low_Hz, high_Hz, rms_before: rms, rms_after: later[k]!.rms };
  });
}
