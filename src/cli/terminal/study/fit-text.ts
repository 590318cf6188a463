/** The answer of a fit, for people. */
import { numberText } from '../../../analysis/words/number-text.ts';
import { formatQuantity } from '../../../base/quantity.ts';
import type { FitDocument } from '../../../studies/fit/fit-document.ts';
import { fittedTrial } from '../../../studies/fit/fitted-trial.ts';
import {
  fitRemarks,
  fitSentence,
  intervalText,
  placeSentence,
  scaleText,
  valueText,
} from '../../../studies/fit/paper.ts';
import { replayOf } from '../../../studies/trials/replay.ts';
import type { Paint } from '../paint.ts';

/** Values with their intervals, what is left, and the command that runs with them; `next`: where the report lies. */
export function fitText(report: FitDocument, next: string, paint: Paint): string {
  const lines = [fitSentence(report), placeSentence(report), ''];
  for (const [path, result] of Object.entries(report.result)) {
    const end = result.at_end ? ', at the end of its range: the truth may lie beyond' : '';
    lines.push(
      `  ${path}  ${valueText(result)}, ${intervalText(report, result)}, from ${formatQuantity(result.start, result.dimension, 4)}${end}`,
    );
  }
  lines.push('');
  for (const { channel, unit, rms_before, rms_after, noise, scale } of report.channels) {
    const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
    lines.push(
      `  ${channel}  RMS ${text(rms_before)} before, ${text(rms_after)} after, noise ${text(noise)}; ${scaleText(scale, channel)}`,
    );
  }
  lines.push(...fitRemarks(report));
  const replay = `to run with it: ${replayOf(fittedTrial(report))}`;
  return [...lines, '', replay, `${paint('strong', 'next')}  ${next}`].join('\n');
}
