/** What two runs of different lengths do not show side by side. */
import { formatQuantity } from '../../base/quantity.ts';
import type { ComparedRun } from './compare.ts';

/** One sentence; null where both were judged over the same time. */
export function windowWords(
  before: Pick<ComparedRun, 'window_s'>,
  after: Pick<ComparedRun, 'window_s'>,
): string | null {
  const [a, b] = [before.window_s, after.window_s];
  if (a.from === b.from && a.to === b.to) return null;
  const time = (x: number): string => formatQuantity(x, 'time', 6);
  const words = ({ from, to }: ComparedRun['window_s']): string =>
    `${time(to - from)} (from ${time(from)} to ${time(to)})`;
  const alike = Math.abs(a.to - a.from - (b.to - b.from)) < 1e-9;
  const caution = alike
    ? 'other moments of the load are compared'
    : 'extremes, means and what a window is too short for differ by that alone';
  return `judged over ${words(a)} → ${words(b)}: ${caution}`;
}
