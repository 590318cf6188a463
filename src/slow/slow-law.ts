/**
 * What every slow state is: a number that moves over minutes to years, at a rate that follows from itself and from a drive that
 * stays as it is for a stretch. The drive is in the law; a new stretch is a new law.
 */
export interface SlowLaw {
  /** dx/dt [unit of x/s]. */
  rate(x: number): number;
  /** d(dx/dt)/dx [1/s]. Constant where the law is linear: a stretch is then one exact step. */
  slope(x: number): number;
}

/** A law that heads for one end: dx/dt = (end − x)/τ. `time_s` 0: it is there at once, which `march` takes as such. */
export function towards(end: number, time_s: number): SlowLaw & { readonly atOnce?: number } {
  if (!(time_s > 0)) return { rate: () => 0, slope: () => 0, atOnce: end };
  return { rate: (x) => (end - x) / time_s, slope: () => -1 / time_s };
}
