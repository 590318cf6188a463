/** What monitoring would have seen, in words: the same on the terminal and the page. */
import { counted } from '../../base/counted.ts';
import type { Beyond, PolledChannel, PolledPort } from '../../monitoring/monitoring.ts';
import { numberText } from './number-text.ts';

const shown = 4;

/** What is less of a channel's range is what is left of something that decays: 0. */
const nothing_ratio = 1e-9;

export const noMonitoring = 'No monitoring: the scenario declares no port (key monitoring).';

/** What a port does, and what its rhythm makes of a load that repeats. */
export function portSentences(port: PolledPort): string[] {
  const { devices_count, round_s, device_s, period_s, averaging_s, most_in_period_count } = port;
  const time = (value_s: number): string => numberText(value_s, 's', shown);
  return [
    `${port.port}: ${counted(devices_count, 'device', 'devices')} every ${time(period_s)}, a round of ${time(round_s)} (${time(device_s)} each; the period has time for ${most_in_period_count}, the port serves ${port.most_of_a_kind_count} of a kind).`,
    averaging_s > 0
      ? `Each answers with its mean over the last ${time(averaging_s)}.`
      : 'Each answers with its value at the instant when it is asked.',
    ...beatSentence(port),
  ];
}

function beatSentence({ beat, period_s }: PolledPort): string[] {
  if (beat === null) return [];
  const { load_period_s, apparent_period_s, passed_over_count } = beat;
  const time = (value_s: number): string => numberText(value_s, 's', shown);
  const load = `The load repeats every ${time(load_period_s)}`;
  if (apparent_period_s === null) return [`${load}: readings ${time(period_s)} apart stand still.`];
  if (passed_over_count === 0) return [`${load}, slow enough for these polls.`];
  return [`${load}: in the readings it seems to repeat every ${time(apparent_period_s)}.`];
}

export const monitoringHead = [
  'channel',
  'seen from',
  'to',
  'was from',
  'to',
  'of the range',
  'mean off',
] as const;

/** A row for each channel: the extremes seen, those that were, the share of the range, and how far off the mean is. */
export function monitoringRows({ channels }: PolledPort): string[][] {
  return channels.map(({ channel, unit, seen, truth, seen_ratio }) => {
    const swing = truth.max - truth.min;
    const text = (value: number, digits = shown): string =>
      numberText(Math.abs(value) < nothing_ratio * swing ? 0 : value, unit, digits).replace('-', '−');
    return [
      channel,
      ...(seen === null ? ['no reading', ''] : [text(seen.min), text(seen.max)]),
      ...[text(truth.min), text(truth.max)],
      seen_ratio === null ? '' : numberText(seen_ratio, 'ratio', 3),
      seen === null ? '' : text(seen.mean - truth.mean, 3),
    ];
  });
}

/** What passed a limit of the bus, channel by channel, and how much of that was met. */
export function beyondSentences({ channels, period_s }: PolledPort): string[] {
  return channels.flatMap((one) => one.beyond.map((found) => beyondSentence(one, found, period_s)));
}

function beyondSentence({ channel }: PolledChannel, found: Beyond, period_s: number): string {
  const { limit, side, level_V, count, met_count, longest_missed_s, shortest_s, met_by_chance_ratio } = found;
  const time = (value_s: number): string => numberText(value_s, 's', shown);
  const where = `${channel} ${side === 'lower' ? 'below' : 'above'} ${numberText(level_V, 'V', shown)} (${limit})`;
  const missed = longest_missed_s === null ? '' : `, the longest missed ${time(longest_missed_s)}`;
  const chance =
    met_by_chance_ratio === null
      ? ''
      : ` At any phase polls meet ${numberText(met_by_chance_ratio, 'ratio', 3)} of them on average.`;
  const faster =
    longest_missed_s === null
      ? ''
      : ` To meet each, poll every ${time(Math.min(shortest_s, period_s))}, or read a log of least and greatest in the device.`;
  return `${where}: ${counted(count, 'time', 'times')}, met ${met_count}${missed}.${chance}${faster}`;
}
