/** What is left where it is not noise, in words: what would explain it first, then where it lies. */
import { numberText } from '../../analysis/words/number-text.ts';
import { formatPercent } from '../../base/quantity.ts';
import { mostExcess } from '../../measured/whiteness.ts';
import { explanationWords } from './explanation-words.ts';
import type { FitReport } from './fit-report.ts';
import { isMostOfIt } from './would-explain.ts';

const byItself = 'The model differs from what was measured: begin with what the file shows by itself.';

export function misfitSentences(report: FitReport): readonly string[] {
  const { misfit } = report;
  return misfit.length === 0 ? [] : [...explained(report), ...misfit.map(misfitSentence)];
}

function explained({ would_explain, misfit, doubts }: FitReport): readonly string[] {
  const [best, ...others] = would_explain;
  if (best === undefined) {
    // A scale that its instrument does not explain is told with the channel.
    if (misfit.every(({ scale_beyond }) => scale_beyond !== null)) return [];
    if (doubts.length > 0)
      return ['The model differs from what was measured: begin with what the file shows by itself.'];
    return [
      'The model differs from what was measured, and neither a fault of the recording nor a usual parameter explains it: look at the set-up, and declare by --sensor what measured it.',
    ];
  }
  const share = (ratio: number): string => formatPercent(ratio, ratio > 0.99 ? 3 : 2);
  const shared = would_explain.map(
    (one) => `${explanationWords(one).clause} (${share(one.explains_ratio)} of it)`,
  );
  const isSmall = misfit.every(({ excess_ratio }) => excess_ratio < mostExcess);
  if (isSmall && doubts.length > 0) return [`${byItself} These would explain a part: ${shared.join('; ')}.`];
  if (!isMostOfIt(best))
    return [
      `The model differs from what was measured; these would explain it or a part: ${shared.join('; ')}.`,
    ];
  const { clause, mend } = explanationWords(best);
  const first = `It looks as if ${clause}: that explains ${share(best.explains_ratio)} of the misfit. ${mend}`;
  return others.length === 0 ? [first] : [first, `About as well: ${shared.slice(1).join('; ')}.`];
}

function misfitSentence({
  channel,
  signs,
  band_Hz,
  moment_s,
  scale_beyond,
}: FitReport['misfit'][number]): string {
  const band =
    band_Hz === null
      ? ''
      : `, most of it from ${numberText(band_Hz[0], 'Hz')} to ${numberText(band_Hz[1], 'Hz')}`;
  const scale = scale_beyond === null ? '' : `${scale_beyond}, more than its instrument explains; `;
  const rest = signs.length === 0 ? 'noise beside it' : `${signs.join(', ')}${band}`;
  return `Misfit of ${channel}: ${scale}${rest}, largest about ${numberText(moment_s, 's')} of the run.`;
}
