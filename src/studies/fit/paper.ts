/** What a fit found, in words and tables: for the terminal, the page and Markdown. */
import { endingWith, halfWidthText, rangeText, withHalfWidth } from '../../analysis/words/interval-text.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { dimensionOf, unitOfChannel } from '../../measured/measured-unit.ts';
import type { Scale } from '../../measured/scale.ts';
import { markdownTable, type PlainRow } from '../tables.ts';
import { replayOf } from '../trials/replay.ts';
import { clockSentences } from './clock-words.ts';
import type { FitDocument } from './fit-document.ts';
import type { FitReport, FitResult } from './fit-report.ts';
import { fittedTrial } from './fitted-trial.ts';
import { isCut, isNoise } from './judge.ts';
import { misfitSentences } from './misfit-words.ts';

export function fitSentence({ iterations, runs, converged, error_before, error_after }: FitReport): string {
  return `Fit in ${counted(iterations, 'step')} (${counted(runs, 'run')})${converged ? '' : ', not settled yet'}: error ${numberText(error_before, '')} before, ${numberText(error_after, '')} after, over the noise.`;
}

/** Where the measurement lies, how that is known, and how well. */
export function placeSentence(report: FitDocument): string {
  const { measured_at_s, measured_at_interval_s: interval, measured } = report;
  const { aligned } = measured;
  const half_s = interval === null ? 0 : (interval[1] - interval[0]) / 2;
  const known =
    interval !== null
      ? `${aligned}, ± ${halfWidthText(half_s, 'time')}, 95 %`
      : aligned === 'given'
        ? aligned
        : `${aligned}, ${unboundedWords(report)}`;
  return `The measurement begins at ${endingWith(measured_at_s, half_s, 'time')} of the run (${known}).`;
}

/** A value in the digits that its interval leaves. */
export function valueText({ value, interval, dimension }: FitResult): string {
  return endingWith(value, interval === null ? 0 : (interval[1] - interval[0]) / 2, dimension);
}

export function intervalText(report: FitReport, result: FitResult): string {
  const { interval, dimension } = result;
  if (interval === null) return unboundedWords(report);
  return `${rangeText(interval, dimension)} (95 %${isCut(result) ? ', cut off by its range' : ''})`;
}

/** Why a value has no interval. */
function unboundedWords(report: FitReport): string {
  const { measured_at_open } = report;
  if (!isNoise(report)) return 'no interval, as what is left is not noise';
  return measured_at_open
    ? 'not bounded, as the place in time is open: give --measured-at TIME, or begin to record before an edge'
    : 'not bounded by this measurement';
}

export const valueHead = [
  'parameter',
  'found',
  'interval (profile)',
  'interval (linear)',
  'start',
  'range',
  '',
] as const;

export function valueRows(report: FitReport): PlainRow[] {
  return Object.entries(report.result).map(([path, result]) => {
    const { linear_interval, start, range, dimension, at_end } = result;
    return [
      path,
      valueText(result),
      intervalText(report, result),
      linear_interval === null ? '–' : rangeText(linear_interval, dimension),
      formatQuantity(start, dimension, 4),
      `${formatQuantity(range[0], dimension, 4)} to ${formatQuantity(range[1], dimension, 4)}`,
      at_end ? 'at the end of its range: the truth may lie beyond' : '',
    ];
  });
}

export const channelHead = [
  'channel',
  'RMS before',
  'RMS after',
  'noise',
  'samples',
  'bias',
  'gain',
] as const;

export function channelRows({ channels }: FitReport): PlainRow[] {
  return channels.map(({ channel, unit, samples, rms_before, rms_after, noise, scale }) => {
    const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
    return [
      channel,
      text(rms_before),
      text(rms_after),
      text(noise),
      samples,
      biasText(scale, channel),
      gainText(scale),
    ];
  });
}

/** Bands that were told of some channel, one row for each channel and band. */
export const bandHead = ['channel', 'band', 'before', 'after'] as const;

export function bandRows({ channels }: FitReport): PlainRow[] {
  return channels.flatMap(({ channel, unit, bands }) =>
    bands.flatMap(({ low_Hz, high_Hz, rms_before, rms_after }) => {
      const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
      if (rms_before === null || rms_after === null) return [];
      return [
        [
          channel,
          `${numberText(low_Hz, 'Hz')} to ${numberText(high_Hz, 'Hz')}`,
          text(rms_before),
          text(rms_after),
        ],
      ];
    }),
  );
}

/** `bias 12.3 mV ± 0.4 mV, gain 1.0012 ± 0.0004 (95 %)`. */
export function scaleText(scale: Scale, channel: string): string {
  const known = [`bias ${biasText(scale, channel)}`];
  if (scale.gain_ratio !== null) known.push(`gain ${gainText(scale)}`);
  return `${known.join(', ')} (95 %)`;
}

function biasText({ bias, bias_interval }: Scale, channel: string): string {
  return withHalfWidth(bias, halfOf(bias_interval), dimensionOf[unitOfChannel(channel)]);
}

function gainText({ gain_ratio, gain_interval }: Scale): string {
  return gain_ratio === null || gain_interval === null
    ? '–'
    : withHalfWidth(gain_ratio, halfOf(gain_interval), 'ratio');
}

const halfOf = ([low, high]: readonly [number, number]): number => (high - low) / 2;

/** What the values rest on, and what the measurement does not show. */
export function restSentences({
  rests_on,
  hidden_drifts,
  result,
  cannot_tell_apart,
  without_effect,
}: FitReport): readonly string[] {
  return [
    ...rests_on.map(({ path, moves }) => {
      const moved = Object.entries(moves).map(
        ([own, by]) => `${own} by up to ${formatQuantity(Math.abs(by), result[own]!.dimension, 2)}`,
      );
      return `Rests on ${path} as it stands: over its range it would move ${moved.join(', ')}.`;
    }),
    ...hidden_drifts.map(
      ({ channel, by, path }) =>
        `Rests on a zero of ${channel} that stands still: a drift by ${numberText(by, unitOfChannel(channel), 2)} from the first reading to the last would move ${path} out of its interval, and these data could not tell.`,
    ),
    ...cannot_tell_apart.map(
      (group) =>
        `Cannot be told apart: ${group.join(', ')}. Only a combination is known; keep all but one fixed.`,
    ),
    ...without_effect.map((path) => `No effect on what was measured: ${path}.`),
  ];
}

/** All that is to be known beside the numbers, what matters most first. */
export function fitRemarks(report: FitReport): readonly string[] {
  return [...report.doubts, ...misfitSentences(report), ...clockSentences(report), ...restSentences(report)];
}

export function fitMarkdown(report: FitDocument): string {
  const sentences = fitRemarks(report);
  return [
    `# ${report.title}`,
    report.about,
    `**${fitSentence(report)}** ${placeSentence(report)}`,
    markdownTable(valueHead, valueRows(report)),
    '## What is left',
    markdownTable(channelHead, channelRows(report)),
    markdownTable(bandHead, bandRows(report)),
    ...(sentences.length === 0 ? [] : [sentences.map((sentence) => `- ${sentence}`).join('\n')]),
    '## To run with it',
    `\`${replayOf(fittedTrial(report))}\``,
    '',
  ].join('\n\n');
}
