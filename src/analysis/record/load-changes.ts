/** Where the mean of the load changes for good: starts and stops that no unit tells of. */
import type { Span } from '../../events/spans.ts';

const shortest_s = 0.05;

export interface LoadMeans {
  readonly means: Float64Array;
  readonly from_s: number;
  readonly width_s: number;
}

/**
 * Stretches around which adjacent means over length_s differ by more than threshold_W, each from where the load
 * begins to move there to where it has moved: half a ramp is no steady operation. A period that is no whole number of
 * the means is interpolated.
 * `cutShort`: near the ends of the record the windows may be shorter (down to 0.05 s), so that a jump there
 * is seen too; not for a load with a beat, whose means over less than the beat differ by themselves.
 */
export function loadChanges(
  load: LoadMeans,
  threshold_W: number,
  length_s: number,
  cutShort: boolean,
): Span[] {
  const { means, from_s, width_s } = load;
  const n = means.length;
  const sums = new Float64Array(n + 1);
  for (let j = 0; j < n; j++) sums[j + 1] = sums[j]! + means[j]!;
  const sumTo = (x: number): number => {
    const j = Math.min(Math.floor(x), n - 1);
    return sums[j]! + (x - j) * means[j]!;
  };
  const w = length_s / width_s;
  const least = cutShort ? Math.min(w, shortest_s / width_s) : w;
  const changes: Span[] = [];
  let worst = 0;
  let first = 0;
  let last = 0;
  let sign = 1;
  // A quarter of the slowest ramp that counts as a change.
  const moves_W = threshold_W / w / 4;
  const isMoving = (j: number): boolean => j > 0 && j < n && (means[j]! - means[j - 1]!) * sign > moves_W;
  const close = (): void => {
    if (worst > 0) {
      while (isMoving(first - 1)) first--;
      while (isMoving(last + 1)) last++;
      changes.push({ from_s: from_s + first * width_s, to_s: from_s + last * width_s });
    }
    worst = 0;
  };
  for (let j = Math.ceil(least); j + least <= n; j++) {
    const before = Math.min(w, j);
    const after = Math.min(w, n - j);
    const change = (sumTo(j + after) - sums[j]!) / after - (sums[j]! - sumTo(j - before)) / before;
    const difference = Math.abs(change);
    if (difference <= threshold_W) {
      close();
    } else if (difference > worst * (1 + 1e-3)) {
      worst = difference;
      sign = Math.sign(change);
      first = j;
      last = j;
    } else if (difference >= worst * (1 - 1e-3)) {
      last = j;
    }
  }
  close();
  return changes;
}
