/** The shape of a measurement laid over a run, in its report. The compiler holds it to `MeasuredReport`. */
import type { MeasuredReport } from '../analysis/judge/report.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);
const numbers = is.listOf(is.finite);

export const measuredShape: is.Shape<MeasuredReport> = is.record({
  file: is.text,
  sha256: is.text,
  at_s: is.finite,
  aligned: is.oneOf('given', 'found', 'assumed'),
  by: is.orNull(is.text),
  correlation_ratio: numberOrNull,
  confidence_ratio: numberOrNull,
  at_error_s: numberOrNull,
  at_interval_s: is.orNull(is.pairOf(is.finite)),
  as_well_at_s: numbers,
  clock_rate_ratio: numberOrNull,
  clock_rate_error_ratio: numberOrNull,
  warnings: is.listOf(is.text),
  channels: is.listOf(
    is.record({
      channel: is.text,
      column: is.text,
      unit: is.text,
      samples: is.count,
      rate_Hz: is.finite,
      bias: is.finite,
      bias_interval: is.pairOf(is.finite),
      gain_ratio: numberOrNull,
      gain_interval: is.orNull(is.pairOf(is.finite)),
      rms: is.finite,
      peak: is.finite,
      peak_s: is.finite,
      swing: is.finite,
      sensor: is.orNull(is.text),
      allowed_bias: is.finite,
      correlation_ratio: numberOrNull,
      bands: is.listOf(is.record({ low_Hz: is.finite, high_Hz: is.finite, rms: numberOrNull })),
      trace: is.record({ time_s: numbers, low: numbers, high: numbers, simulated: numbers }),
    }),
  ),
  remarks: is.listOf(is.text),
});
