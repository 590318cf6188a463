/** What is known of the clock of the file, in words: always said, for a wrong clock moves values and may leave no rest. */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { FitReport } from './fit-report.ts';

export function clockSentences({
  clock,
  misfit,
  result,
}: Pick<FitReport, 'clock' | 'misfit' | 'result'>): readonly string[] {
  const { taken_out_ratio, known_ratio, seen_ratio, seen_error_ratio, is_off, hidden_ratio, moves } = clock;
  // Beside a misfit a clock is one of the faults that would explain it.
  if (known_ratio === 0 || (misfit.length > 0 && taken_out_ratio === null)) return [];
  const within = `± ${formatPercent(known_ratio, 2)}`;
  if (misfit.length === 0 && is_off && seen_ratio !== null && seen_error_ratio !== null) {
    return [
      `The clock of the file looks off: what is left agrees with stamps that run ${formatPercent(Math.abs(seen_ratio), 2)} ${seen_ratio > 0 ? 'fast' : 'slow'} (± ${formatPercent(1.96 * seen_error_ratio, 2)}, 95 %), where ${within} is taken for possible; or the model differs in what looks like that. Check the clock.`,
    ];
  }
  const known =
    taken_out_ratio === null
      ? `The clock of the file is taken as right within ${within} (one standard deviation, assumed)`
      : `The stamps of the file run ${formatPercent(Math.abs(taken_out_ratio), 3)} ${taken_out_ratio > 0 ? 'fast' : 'slow'} (${within}, one standard deviation); that was taken out`;
  if (misfit.length > 0) return [`${known}.`];
  const moved = Object.entries(moves).map(
    ([path, by]) =>
      `${path} ${by > 0 ? 'up' : 'down'} by ${formatQuantity(Math.abs(by), result[path]!.dimension, 2)}`,
  );
  const beyond =
    moved.length === 0
      ? 'a clock that these data could not tell from it moves no value by a quarter of its interval'
      : `one that runs ${formatPercent(hidden_ratio, 2)} fast would move ${moved.join(', ')}, and these data could not tell`;
  return [`${known}; ${beyond}.`];
}
