/** What was written of waveforms, in words: a file of rows does not say what a row is. */

import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { Pace } from '../../engine/meters/waveforms.ts';
import type { WaveformFiles } from '../../export/save-waveforms.ts';

/** One line a file. */
export function waveformLines(
  { series, pace }: Omit<WaveformFiles, 'files'>,
  files: readonly { readonly target: string }[],
  rows: number,
): string[] {
  return files.map(
    ({ target }) =>
      `${target}: ${counted(rows, 'row')} of time_s and ${counted(series.length, 'channel')}, ${paceWords(pace)}`,
  );
}

export function paceWords(pace: Pace): string {
  if (pace.kind === 'every-step') return 'the values at the end of each step';
  const { rate_Hz, filter } = pace;
  const middle = 'time_s is the middle of each interval';
  return filter === 'mean'
    ? `means over ${formatQuantity(1 / rate_Hz, 'time', 6)}; ${middle}`
    : `at ${formatQuantity(rate_Hz, 'frequency', 6)} through a low-pass flat to ${formatQuantity(0.3 * rate_Hz, 'frequency', 6)}, 80 dB down where it folds below that; ${middle}`;
}
