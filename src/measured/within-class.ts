/**
 * Gain and bias of an instrument, open within its class: known beforehand like two more readings, gain 1 ± γ and bias
 * 0 ± β. Of the difference d between a measured and a simulated channel, whose swing is x, the part along x counts by
 * k_g = σ/√(σ² + γ² Σx²) and the mean by k_b = σ/√(σ² + n β²): the sum of squares of that is the least of
 * Σ(d − g x − b)² + σ² (g²/γ² + b²/β²) over gain and bias (least squares with normal priors).
 */

/** How far gain and zero of an instrument are off, one standard deviation each. */
export interface Tolerance {
  readonly gain_ratio: number;
  readonly bias: number;
}

/** Shares of an error of gain, and of bias, that count: 1 of an exact instrument, 0 where both are free. */
export interface Kept {
  readonly gainKept: number;
  readonly biasKept: number;
}

/** `xx`: Σx² of n samples; `variance`: of the noise; `within` null: gain and bias are free. */
export function keptOf(
  { xx, n }: { readonly xx: number; readonly n: number },
  variance: number,
  within: Tolerance | null,
): Kept {
  if (within === null) return { gainKept: 0, biasKept: 0 };
  const kept = (known: number): number => (known === 0 ? 1 : Math.sqrt(variance / (variance + known)));
  return { gainKept: kept(xx * within.gain_ratio ** 2), biasKept: kept(n * within.bias ** 2) };
}

/** What of `values` counts beside `x`, whose mean is 0: less the shares that gain and bias may make. */
export function openTo(values: Float64Array, x: Float64Array, { gainKept, biasKept }: Kept): Float64Array {
  const xx = dot(x, x);
  const share = xx > 0 ? ((1 - gainKept) * dot(values, x)) / xx : 0;
  const offset = ((1 - biasKept) * values.reduce((sum, value) => sum + value, 0)) / values.length;
  return values.map((value, i) => value - offset - share * x[i]!);
}

export function centred(values: Float64Array): Float64Array {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
