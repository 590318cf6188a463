/** Lowest value of a recorded channel over a stretch, from the buckets that lie inside it. */
import type { Recording } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';

/** null where no bucket lies inside. */
export function lowestIn(
  { edges_s, min, bucketCount }: Recording,
  index: number,
  { from_s, to_s }: Span,
): number | null {
  let low: number | null = null;
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const value = min[index]![b]!;
    if (low === null || value < low) low = value;
  }
  return low;
}
