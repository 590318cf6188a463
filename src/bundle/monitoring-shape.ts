/** The shape of what a run's report says of monitoring. The compiler holds it to `Monitoring`. */
import type { Beat, Beyond, Monitoring, PolledChannel, Range } from '../monitoring/monitoring.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);

const range: is.Shape<Range> = is.record({ min: is.finite, max: is.finite, mean: is.finite });

const beat: is.Shape<Beat> = is.record({
  load_period_s: is.finite,
  apparent_period_s: numberOrNull,
  passed_over_count: is.count,
});

const beyond: is.Shape<Beyond> = is.record({
  limit: is.text,
  side: is.oneOf('lower', 'upper'),
  level_V: is.finite,
  count: is.count,
  met_count: is.count,
  longest_s: is.finite,
  shortest_s: is.finite,
  longest_missed_s: numberOrNull,
  met_by_chance_ratio: numberOrNull,
});

const channel: is.Shape<PolledChannel> = is.record({
  channel: is.text,
  device: is.text,
  unit: is.text,
  time_s: is.listOf(is.finite),
  readings: is.listOf(is.finite),
  seen: is.orNull(range),
  truth: range,
  seen_ratio: numberOrNull,
  beyond: is.listOf(beyond),
});

export const monitoringShape: is.Shape<Monitoring> = is.record({
  from_s: is.finite,
  to_s: is.finite,
  ports: is.listOf(
    is.record({
      port: is.text,
      period_s: is.finite,
      averaging_s: is.finite,
      device_s: is.finite,
      round_s: is.finite,
      devices_count: is.count,
      most_of_a_kind_count: is.count,
      most_in_period_count: is.count,
      beat: is.orNull(beat),
      channels: is.listOf(channel),
    }),
  ),
});
