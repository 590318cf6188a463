/**
 * A row of evenly spaced samples: a column as it is, or what is made of one, stretch by stretch, where it is read. An hour
 * at 1 kHz is 28.8 MB; a share of it, scaled and turned into a current, would be held three times more.
 */
export type Samples = Float64Array | MadeSamples;

export interface MadeSamples {
  readonly length: number;
  /** The samples from `first` on, as many as `into` holds. */
  read(into: Float64Array, first: number): void;
}

/** The samples from `first` on, as many as `into` holds; all of them must be there. */
export function readInto(into: Float64Array, samples: Samples, first: number): void {
  if (samples instanceof Float64Array) into.set(samples.subarray(first, first + into.length));
  else samples.read(into, first);
}

/** Each stretch through `make`, which changes it in place, when it is read. */
export function through(samples: Samples, make: (stretch: Float64Array, first: number) => void): Samples {
  return {
    length: samples.length,
    read: (into, first) => {
      readInto(into, samples, first);
      make(into, first);
    },
  };
}

/** `count` samples from `first` on. */
export function stretchOf(samples: Samples, first: number, count: number): Samples {
  if (samples instanceof Float64Array) return samples.subarray(first, first + count);
  return { length: count, read: (into, from) => samples.read(into, first + from) };
}

/** A whole number of times round. */
export function roundAndRound(cycle: Float64Array, times: number): Samples {
  const n = cycle.length;
  return {
    length: times * n,
    read: (into, first) => {
      for (let done = 0; done < into.length; ) {
        const from = (first + done) % n;
        const count = Math.min(into.length - done, n - from);
        into.set(cycle.subarray(from, from + count), done);
        done += count;
      }
    },
  };
}

/** The first `count` samples, last first, then all of them. */
export function mirroredBefore(samples: Samples, count: number): Samples {
  return {
    length: count + samples.length,
    read: (into, first) => {
      const turned = Math.max(0, Math.min(into.length, count - first));
      const mirror = into.subarray(0, turned);
      readInto(mirror, samples, count - first - turned);
      mirror.reverse();
      readInto(into.subarray(turned), samples, Math.max(0, first - count));
    },
  };
}

/** Samples that are looked at at once. */
const atOnce = 1024;

/** Hands on all samples, stretch by stretch, in memory that is used again. */
export function eachStretch(samples: Samples, take: (stretch: Float64Array, first: number) => void): void {
  const room = new Float64Array(Math.min(atOnce, samples.length));
  for (let first = 0; first < samples.length; first += atOnce) {
    const stretch = room.subarray(0, Math.min(atOnce, samples.length - first));
    readInto(stretch, samples, first);
    take(stretch, first);
  }
}

/** All of them in a column. */
export function columnOf(samples: Samples): Float64Array {
  if (samples instanceof Float64Array) return samples;
  const column = new Float64Array(samples.length);
  samples.read(column, 0);
  return column;
}

export function meanOfSamples(samples: Samples): number {
  let sum = 0;
  eachStretch(samples, (stretch) => {
    for (let j = 0; j < stretch.length; j++) sum += stretch[j]!;
  });
  return samples.length === 0 ? Number.NaN : sum / samples.length;
}
