/** What a spread says in numbers. */

/** 97.5 % point of the standard normal distribution. */
const z = 1.959963984540054;

/**
 * Interval of a yield that covers the true one 95 times of 100 (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927): the
 * yields p with |k/n − p| ≤ z √(p (1 − p)/n). Never leaves 0 to 1, and works for 0 and n of n.
 */
export function wilson(passed: number, of: number): readonly [low: number, high: number] {
  if (of === 0) return [0, 1];
  const p = passed / of;
  const half = z * Math.sqrt((p * (1 - p)) / of + (z * z) / (4 * of * of));
  const middle = p + (z * z) / (2 * of);
  const below = 1 + (z * z) / of;
  return [
    passed === 0 ? 0 : Math.max(0, (middle - half) / below),
    passed === of ? 1 : Math.min(1, (middle + half) / below),
  ];
}

/** Ranks from 1; ties share the mean of theirs. */
export function ranks(values: readonly number[]): Float64Array {
  const order = values.map((value, k) => ({ value, k })).sort((a, b) => a.value - b.value);
  const out = new Float64Array(values.length);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to + 1 < order.length && order[to + 1]!.value === order[from]!.value) to++;
    for (let k = from; k <= to; k++) out[order[k]!.k] = (from + to) / 2 + 1;
    from = to + 1;
  }
  return out;
}

/** Rank correlation of Spearman: how well the one rises (+1) or falls (−1) with the other; 0 where one is constant. */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const [x, y] = [ranks(a), ranks(b)];
  const mean = (a.length + 1) / 2;
  let [xy, xx, yy] = [0, 0, 0];
  for (let k = 0; k < x.length; k++) {
    const [dx, dy] = [x[k]! - mean, y[k]! - mean];
    xy += dx * dy;
    xx += dx * dx;
    yy += dy * dy;
  }
  return xx === 0 || yy === 0 ? 0 : xy / Math.sqrt(xx * yy);
}

/** Rank correlation that 19 of 20 unrelated pairs stay below. */
export function rankNoise(samples: number): number {
  return samples < 3 ? 1 : Math.min(1, z / Math.sqrt(samples - 1));
}

export interface Histogram {
  readonly edges: readonly number[];
  readonly counts: readonly number[];
}

/** Even bins from the least to the largest value. */
export function histogram(values: readonly number[], bins = 20): Histogram {
  const low = Math.min(...values);
  const high = Math.max(...values);
  if (!(high > low)) return { edges: [low, low], counts: [values.length] };
  const counts = new Array<number>(bins).fill(0);
  for (const value of values) {
    const k = Math.min(bins - 1, Math.floor(((value - low) / (high - low)) * bins));
    counts[k] = counts[k]! + 1;
  }
  const edges = Array.from({ length: bins + 1 }, (_, k) => low + ((high - low) * k) / bins);
  return { edges, counts };
}

/** The value that a part `p` of the values lies below, between neighbours by a straight line. */
export function percentile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = p * (sorted.length - 1);
  const k = Math.floor(at);
  const [a, b] = [sorted[k]!, sorted[Math.min(k + 1, sorted.length - 1)]!];
  return a + (at - k) * (b - a);
}
