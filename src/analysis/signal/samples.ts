/**
 * A row of evenly spaced samples that is read one by one: a column as it is, or what is made of one when asked. An
 * hour at 1 kHz is 28.8 MB; a share of it, scaled and turned into a current, would be held three times more.
 */
export interface Samples {
  readonly length: number;
  at(j: number): number | undefined;
}

/** Each sample through `make`, when it is read. */
export function through(samples: Samples, make: (value: number, j: number) => number): Samples {
  return { length: samples.length, at: (j) => make(samples.at(j)!, j) };
}

/** `count` samples from `first` on. */
export function stretchOf(samples: Samples, first: number, count: number): Samples {
  return { length: count, at: (j) => samples.at(first + j) };
}
