/** Dynamic range: the largest distance between highest and lowest value within any stretch of a given length. */

export interface Range {
  readonly range: number;
  /** End of the stretch. */
  readonly time_s: number;
}

/**
 * Sliding highest minus lowest of `values` (one per width_s, from from_s) over at most length_s.
 * Monotonic queues: each value enters and leaves once. null without values.
 */
export function largestRange(
  values: Float64Array,
  from_s: number,
  width_s: number,
  length_s: number,
): Range | null {
  const length = Math.max(1, Math.round(length_s / width_s));
  const high = new Int32Array(values.length);
  const low = new Int32Array(values.length);
  let highHead = 0;
  let highTail = 0;
  let lowHead = 0;
  let lowTail = 0;
  let best: Range | null = null;
  for (let j = 0; j < values.length; j++) {
    const value = values[j]!;
    while (highTail > highHead && values[high[highTail - 1]!]! <= value) highTail--;
    high[highTail++] = j;
    while (lowTail > lowHead && values[low[lowTail - 1]!]! >= value) lowTail--;
    low[lowTail++] = j;
    if (high[highHead]! <= j - length) highHead++;
    if (low[lowHead]! <= j - length) lowHead++;
    const range = values[high[highHead]!]! - values[low[lowHead]!]!;
    if (best === null || range > best.range) best = { range, time_s: from_s + (j + 1) * width_s };
  }
  return best;
}
