/** Samples that repeat the one before far more often than the channel's moves would have it: rows written twice. */
import { formatPercent } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** So large a share of the samples, and so many times what chance has. Meters that are polled repeat one in twenty. */
const least_ratio = 0.06;
const beyond = 3;
const fewest = 20;
/** Beyond this share a sensor renews at every other reading: its bandwidth says so. */
const renews_ratio = 0.35;

/** A run of three or more is a matter of rest, or of a sensor that renews slowly; one at an end of the range of that end. */
export function doubled({ name, time_s, values }: Sampled, { unrest }: EqualRuns): Sign[] {
  if (!isRestless(unrest)) return [];
  const n = values.length;
  const { lowest, highest } = rangeOf(values);
  const differs = (i: number): boolean => i < 1 || i >= n || values[i] !== values[i - 1];
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < n; i++) if (differs(i)) step = Math.min(step, Math.abs(values[i]! - values[i - 1]!));
  let [count, near, first, last] = [0, 0, -1, -1];
  for (let i = 1; i < n; i++) {
    if (differs(i)) {
      if (Math.abs(values[i]! - values[i - 1]!) < 1.5 * step) near++;
      continue;
    }
    const isEnd = values[i] === 0 || values[i] === lowest || values[i] === highest;
    if (isEnd || !differs(i - 1) || !differs(i + 1)) continue;
    if (first < 0) first = i;
    last = i;
    count++;
  }
  // A change by one step up or down is as likely as two that are equal, each.
  const byChance = near / 2;
  const ratio = count / n;
  if (ratio < least_ratio || ratio > renews_ratio || count < fewest + beyond * byChance) return [];
  return [
    {
      kind: 'doubled',
      channel: name,
      from_s: time_s[first]!,
      to_s: time_s[last]!,
      shows: `${name} repeats the sample before it ${count} times, each time once (${formatPercent(ratio, 2)} of its samples), where its moves would have it about ${Math.round(byChance)} times`,
      asks: 'rows written twice under new stamps, or a meter that renews more slowly than it is read?',
    },
  ];
}
