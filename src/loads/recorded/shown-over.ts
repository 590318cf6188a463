import type { RecordedReading } from '../../scenario/scenario.ts';
import { bandwidthOfRate, telling_ratio } from './bandwidth.ts';
import type { ChannelQuality, QualityStatement } from './statement.ts';

/** Highest frequency that shows, and what bounds it. */
export function shownOver(channels: readonly ChannelQuality[], slowest_s: number, reading: RecordedReading) {
  let longest_s = slowest_s;
  let bandwidth_by: QualityStatement['bandwidth_by'] = 'rate';
  const mean_s = Math.max(...channels.map((c) => c.interval_mean_s));
  if (mean_s > (1 + telling_ratio) * slowest_s) [longest_s, bandwidth_by] = [mean_s, 'mean rate'];
  const renewal_s = reading.fresh ? 0 : Math.max(0, ...channels.map((c) => c.renewal_s ?? 0));
  if (renewal_s > longest_s) [longest_s, bandwidth_by] = [renewal_s, 'renewal'];
  if ((reading.averaging_s ?? 0) > longest_s) [longest_s, bandwidth_by] = [reading.averaging_s!, 'averaging'];
  let bandwidth_Hz = bandwidthOfRate / longest_s;
  if (reading.side === 'ac' && bandwidth_Hz > acSideShows_Hz) {
    [bandwidth_Hz, bandwidth_by] = [acSideShows_Hz, 'AC side'];
  }
  return { bandwidth_Hz, bandwidth_by };
}

/**
 * What is left of a DC load behind its power supply. Assumed: the input stage of a rectifier follows its load
 * with a loop of 5 to 15 Hz, so that faster swings come from its bulk capacitor.
 */
const acSideShows_Hz = 5;
