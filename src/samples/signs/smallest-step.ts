/** The smallest change from a sample to the next: the step of the sensor, or of how it was written. */
export function smallestStep(values: Float64Array): number {
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > 0 && change < step) step = change;
  }
  return step;
}
