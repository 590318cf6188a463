/** The answer of a fit, for people. */

import { numberText } from '../../../analysis/words/number-text.ts';
import { counted } from '../../../base/counted.ts';
import { formatPercent, formatQuantity } from '../../../base/quantity.ts';
import type { Change } from '../../../scenario/scenario.ts';
import type { Adjusted } from '../../../studies/fit/adjusted.ts';
import type { FitReport } from '../../../studies/fit/fit-report.ts';
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
    `The measurement begins at ${numberText(report.measured_at_s, 's')} of the run (${placeWords(report, aligned)}).`,
    '',
  ];
  for (const { path, dimension, start } of adjusted) {
    const found = report.result[path]!;
    const show = (value: number): string => formatQuantity(value, dimension, 4);
    const interval =
      found.interval === null
        ? report.misfit.length > 0
          ? 'no interval, as what is left is not noise'
          : 'not bounded by this measurement'
        : `${show(found.interval[0])} to ${show(found.interval[1])} (95 %)`;
    const end = found.at_end ? ', at the end of its range: the truth may lie beyond' : '';
    lines.push(`  ${path}  ${show(found.value)}, ${interval}, from ${show(start)}${end}`);
  }
  lines.push('');
  for (const { channel, unit, rms_before, rms_after, noise } of report.channels) {
    const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
    lines.push(
      `  ${channel}  RMS ${text(rms_before)} before, ${text(rms_after)} after, noise ${text(noise)}`,
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

/** How the place is known, and how well. */
function placeWords({ measured_at_interval_s: interval, misfit }: FitReport, aligned: string): string {
  if (interval !== null) return `${aligned}, ± ${numberText((interval[1] - interval[0]) / 2, 's')}, 95 %`;
  if (aligned === 'given') return aligned;
  return misfit.length > 0
    ? `${aligned}, no interval, as what is left is not noise`
    : `${aligned}, not bounded by this measurement`;
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
function misfitLines({ misfit, would_explain }: FitReport): string[] {
  const lines = misfit.map(({ channel, signs, band_Hz, moment_s, scale_beyond }) => {
    const band =
      band_Hz === null
        ? ''
        : `, most of it from ${numberText(band_Hz[0], 'Hz')} to ${numberText(band_Hz[1], 'Hz')}`;
    const scale = scale_beyond === null ? '' : `${scale_beyond}, more than its instrument explains; `;
    return `Misfit of ${channel}: ${scale}${signs.join(', ')}${band}, largest about ${numberText(moment_s, 's')} of the run.`;
  });
  if (misfit.length === 0) return [];
  const named = would_explain.map(
    ({ path, explains_ratio }) => `${path} (${formatPercent(explains_ratio, 2)} of it)`,
  );
  lines.push(
    named.length > 0
      ? `The model differs from what was measured; adjusting these too would explain a part: ${named.join(', ')}.`
      : 'The model differs from what was measured, and none of the usual parameters explains it: look at the set-up, and declare by --sensor what measured it.',
  );
  return lines;
}
