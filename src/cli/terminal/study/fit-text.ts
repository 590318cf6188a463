/** The answer of a fit, for people. */

import {
  endingWith,
  halfWidthText,
  rangeText,
  withHalfWidth,
} from '../../../analysis/words/interval-text.ts';
import { numberText } from '../../../analysis/words/number-text.ts';
import { counted } from '../../../base/counted.ts';
import { type Dimension, formatPercent, formatQuantity } from '../../../base/quantity.ts';
import { dimensionOf, type MeasuredUnit, unitOfChannel } from '../../../measured/measured-unit.ts';
import type { Scale } from '../../../measured/scale.ts';
import type { Change } from '../../../scenario/scenario.ts';
import type { Adjusted } from '../../../studies/fit/adjusted.ts';
import type { FitReport } from '../../../studies/fit/fit-report.ts';
import type { TimeFault } from '../../../studies/fit/time-fault.ts';
import { quoted } from '../../../studies/trials/replay.ts';

/** Values with their intervals, what is left, and the command that runs with them; `set`: the user's own changes. */
export function fitText(
  report: FitReport,
  adjusted: readonly Adjusted[],
  aligned: string,
  name: string,
  set: readonly Change[],
): string {
  const lines = [
    `Fit in ${counted(report.iterations, 'step')} (${counted(report.runs, 'run')})${report.converged ? '' : ', not settled yet'}: error ${numberText(report.error_before, '')} before, ${numberText(report.error_after, '')} after, over the noise.`,
    placeLine(report, aligned),
    '',
  ];
  for (const { path, dimension, start } of adjusted) {
    const { value, interval, range, at_end } = report.result[path]!;
    const half = interval === null ? 0 : (interval[1] - interval[0]) / 2;
    const known = interval === null ? unboundedWords(report) : intervalWords(interval, range, dimension);
    const end = at_end ? ', at the end of its range: the truth may lie beyond' : '';
    lines.push(
      `  ${path}  ${endingWith(value, half, dimension)}, ${known}, from ${formatQuantity(start, dimension, 4)}${end}`,
    );
  }
  lines.push('');
  for (const { channel, unit, rms_before, rms_after, noise, scale } of report.channels) {
    const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
    lines.push(
      `  ${channel}  RMS ${text(rms_before)} before, ${text(rms_after)} after, noise ${text(noise)}; ${scaleLine(scale, unitOfChannel(channel))}`,
    );
  }
  lines.push(...misfitLines(report), ...restingLines(report, adjusted));
  for (const group of report.cannot_tell_apart) {
    lines.push(
      `Cannot be told apart: ${group.join(', ')}. Only a combination is known; keep all but one fixed.`,
    );
  }
  for (const path of report.without_effect) lines.push(`No effect on what was measured: ${path}.`);
  const fitted = new Set(report.changes.map(({ path }) => path));
  const kept = set.filter(({ path }) => !fitted.has(path));
  const changes = [...kept, ...report.changes].flatMap(({ path, value }) => [
    '--set',
    quoted(`${path}=${value}`),
  ]);
  return [...lines, '', `to run with it: buswake run ${name} ${changes.join(' ')}`].join('\n');
}

/** `bias 12.3 mV ± 0.4 mV, gain 1.0012 ± 0.0004 (95 %)`. */
function scaleLine({ bias, bias_interval, gain_ratio, gain_interval }: Scale, unit: MeasuredUnit): string {
  const half = ([low, high]: readonly [number, number]): number => (high - low) / 2;
  const known = [`bias ${withHalfWidth(bias, half(bias_interval), dimensionOf[unit])}`];
  if (gain_ratio !== null && gain_interval !== null)
    known.push(`gain ${withHalfWidth(gain_ratio, half(gain_interval), 'ratio')}`);
  return `${known.join(', ')} (95 %)`;
}

/** An end at that of the range is no bound that the measurement gives. */
function intervalWords(
  interval: readonly [number, number],
  [low, high]: readonly [number, number],
  dimension: Dimension,
): string {
  const near = 1e-9 * (high - low);
  const cut = interval[0] <= low + near || interval[1] >= high - near;
  return `${rangeText(interval, dimension)} (95 %${cut ? ', cut off by its range' : ''})`;
}

/** Where the measurement lies, how that is known, and how well. */
function placeLine(report: FitReport, aligned: string): string {
  const { measured_at_s, measured_at_interval_s: interval } = report;
  const half_s = interval === null ? 0 : (interval[1] - interval[0]) / 2;
  const known =
    interval !== null
      ? `${aligned}, ± ${halfWidthText(half_s, 'time')}, 95 %`
      : aligned === 'given'
        ? aligned
        : `${aligned}, ${unboundedWords(report)}`;
  return `The measurement begins at ${endingWith(measured_at_s, half_s, 'time')} of the run (${known}).`;
}

/** Why a value has no interval. */
function unboundedWords({ misfit, measured_at_open }: FitReport): string {
  if (misfit.length > 0) return 'no interval, as what is left is not noise';
  return measured_at_open
    ? 'not bounded, as the place in time is open: give --measured-at TIME, or begin to record before an edge'
    : 'not bounded by this measurement';
}

/** What was kept and would move a found value out of its interval. */
function restingLines({ rests_on }: FitReport, adjusted: readonly Adjusted[]): string[] {
  return rests_on.map(({ path, moves }) => {
    const moved = adjusted.flatMap((parameter) => {
      const by = moves[parameter.path];
      return by === undefined
        ? []
        : [`${parameter.path} by up to ${formatQuantity(Math.abs(by), parameter.dimension, 2)}`];
    });
    return `Rests on ${path} as it stands: over its range it would move ${moved.join(', ')}.`;
  });
}

/** What is left where it is not noise: where it lies, and what would explain it. */
function misfitLines({ misfit, would_explain, time_fault, channels }: FitReport): string[] {
  const lines = misfit.map(({ channel, signs, band_Hz, moment_s, scale_beyond }) => {
    const band =
      band_Hz === null
        ? ''
        : `, most of it from ${numberText(band_Hz[0], 'Hz')} to ${numberText(band_Hz[1], 'Hz')}`;
    const scale = scale_beyond === null ? '' : `${scale_beyond}, more than its instrument explains; `;
    const rest = signs.length === 0 ? 'noise beside it' : `${signs.join(', ')}${band}`;
    return `Misfit of ${channel}: ${scale}${rest}, largest about ${numberText(moment_s, 's')} of the run.`;
  });
  if (misfit.length === 0) return [];
  if (time_fault !== null) lines.push(timeFaultLine(time_fault, channels));
  const named = would_explain.map(
    ({ kind, path, explains_ratio }) =>
      `${kind === 'parameter' ? path : `${kind === 'delay' ? 'a' : 'the'} ${kind} of ${path}`} (${formatPercent(explains_ratio, 2)} of it)`,
  );
  if (named.length > 0) {
    lines.push(`The model differs from what was measured; these would explain a part: ${named.join(', ')}.`);
  } else if (time_fault === null) {
    lines.push(
      'The model differs from what was measured, and none of the usual parameters explains it: look at the set-up, and declare by --sensor what measured it.',
    );
  }
  return lines;
}

function timeFaultLine(fault: TimeFault, channels: FitReport['channels']): string {
  const { later_s, explains_ratio } = fault;
  const shift = numberText(Math.abs(later_s), 's', 2);
  const share = `(${formatPercent(explains_ratio, 2)} of the misfit)`;
  if (fault.kind === 'channel apart') {
    return `At the same stamps ${channels[fault.channel]?.channel} is ${shift} ${later_s > 0 ? 'ahead of' : 'behind'} the other channels ${share}: correct its stamps.`;
  }
  const [way, fate] = later_s > 0 ? ['later', 'is missing'] : ['earlier', 'is there twice'];
  return `From about ${numberText(fault.from_s, 's', 2)} of the run on the measurement lies ${shift} ${way} than before ${share}: a stretch of time ${fate} between its stamps. Give the parts as files of their own.`;
}
