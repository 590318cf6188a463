/**
 * A channel that is the running mean of another: y' − y = a(x − y), or the mean of its last n samples. Beside it the same load is
 * counted twice.
 */
import type { Sampled, Sign } from './sign.ts';
import { smallestStep } from './smallest-step.ts';
import type { Together } from './together.ts';

/** What of the changes a mean does not explain is rounding. */
const own_ratio = 1e-3;
/** A mean that follows by more than this at once is the channel itself. */
const most_share = 0.95;
const mostSamples = 60;
/** Samples that are compared. */
const compared = 5000;

export function runningMeans(channels: readonly Sampled[], { columns }: Together): Sign[] {
  return channels.flatMap((mean, k) => {
    const of = channels.findIndex((_, i) => i !== k && isRunningMean(columns[k]!, columns[i]!));
    if (of < 0) return [];
    return [
      {
        kind: 'twin',
        channel: mean.name,
        from_s: mean.time_s[0]!,
        to_s: mean.time_s[mean.time_s.length - 1]!,
        shows: `${mean.name} is a running mean of ${channels[of]!.name}`,
        asks: 'is the one worked out from the other, and counted twice?',
      },
    ];
  });
}

function isRunningMean(all: Float64Array, source: Float64Array): boolean {
  const from = Math.floor(Math.max(0, all.length - compared) / 2);
  const y = all.subarray(from, from + compared);
  const x = source.subarray(from, from + compared);
  for (const late of [0, 1]) {
    const { slope, own } = follows(y, (i) => x[i - late]! - y[i - 1]!, 1);
    if (own < own_ratio && slope > 0 && slope < most_share) return true;
  }
  const step = smallestStep(y);
  for (let n = 2; n <= Math.min(mostSamples, y.length >> 2); n++) {
    // Of the last n samples, or of those to either side.
    for (const ahead of new Set([0, n >> 1, (n - 1) >> 1])) {
      const { slope, own, left } = follows(y, (i) => x[i + ahead]! - x[i + ahead - n]!, n, ahead);
      const isRounding = own < own_ratio || left < step / 2;
      if (isRounding && Math.abs(slope * n - 1) < 1 - most_share) return true;
    }
  }
  return false;
}

/** Least squares of the changes of `y` by `push`, the share of their squares that this leaves, and its root mean square. */
function follows(
  y: Float64Array,
  push: (i: number) => number,
  first: number,
  ahead = 0,
): { readonly slope: number; readonly own: number; readonly left: number } {
  let [pushes, both, changes, count] = [0, 0, 0, 0];
  for (let i = first; i + ahead < y.length; i++) {
    const [change, by] = [y[i]! - y[i - 1]!, push(i)];
    pushes += by * by;
    both += change * by;
    changes += change * change;
    count++;
  }
  if (!(pushes > 0) || !(changes > 0)) return { slope: 0, own: 1, left: Number.POSITIVE_INFINITY };
  const own = 1 - (both * both) / (pushes * changes);
  return { slope: both / pushes, own, left: Math.sqrt((Math.max(0, own) * changes) / count) };
}
