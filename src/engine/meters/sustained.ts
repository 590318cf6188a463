/**
 * What a unit kept up: over adjacent means of equal width, the largest mean of any stretch of a given length, and the
 * highest level it stayed above throughout such a stretch. Bounded: of each channel the last stretch is kept, no more.
 */
import type { Sustained } from '../result.ts';

interface Length {
  readonly seconds: number;
  readonly count: number;
  /** Sum of the last `count` values, one per channel. */
  readonly sum: Float64Array;
  readonly mean: Float64Array;
  readonly meanFrom: Float64Array;
  readonly held: Float64Array;
  readonly heldFrom: Float64Array;
}

export class SustainedMeter {
  private readonly names: readonly string[];
  private readonly width_s: number;
  private readonly lengths: readonly Length[];
  /** The last values of each channel, the longest length of them. */
  private readonly ring: Float64Array;
  private readonly size: number;
  private taken = 0;

  /** `most`: values that can come at all; a longer stretch is never whole and is not looked for. */
  constructor(names: readonly string[], lengths_s: readonly number[], width_s: number, most: number) {
    this.names = names;
    this.width_s = width_s;
    const filled = (): Float64Array => new Float64Array(names.length).fill(Number.NEGATIVE_INFINITY);
    this.lengths = lengths_s
      .map((seconds) => ({ seconds, count: Math.max(1, Math.round(seconds / width_s)) }))
      .filter(({ count }) => count <= most)
      .map(({ seconds, count }) => ({
        seconds,
        count,
        sum: new Float64Array(names.length),
        mean: filled(),
        meanFrom: new Float64Array(names.length),
        held: filled(),
        heldFrom: new Float64Array(names.length),
      }));
    this.size = Math.max(1, ...this.lengths.map(({ count }) => count));
    this.ring = new Float64Array(names.length * this.size);
  }

  /** The next mean of each channel, one after the other from `at` on. */
  take(rows: Float64Array, at: number): void {
    if (this.lengths.length === 0) return;
    const { ring, size, taken } = this;
    const place = taken % size;
    for (let c = 0; c < this.names.length; c++) {
      const value = rows[at + c]!;
      for (const length of this.lengths) {
        const { count, sum } = length;
        const gone = taken < count ? 0 : ring[c * size + ((taken - count) % size)]!;
        sum[c]! += value - gone;
      }
      ring[c * size + place] = value;
    }
    this.taken++;
    for (const length of this.lengths) if (this.taken >= length.count) this.close(length);
  }

  /** The stretch that ends with the last value, of every channel. */
  private close({ count, sum, mean, meanFrom, held, heldFrom }: Length): void {
    const { ring, size, taken } = this;
    const from = taken - count;
    for (let c = 0; c < this.names.length; c++) {
      const average = sum[c]! / count;
      if (average > mean[c]!) {
        mean[c] = average;
        meanFrom[c] = from;
      }
      // A level is stayed above only where the last value lies above it too.
      let least = ring[c * size + ((taken - 1) % size)]!;
      for (let j = from; least > held[c]! && j < taken; j++) {
        const value = ring[c * size + (j % size)]!;
        if (value < least) least = value;
      }
      if (least > held[c]!) {
        held[c] = least;
        heldFrom[c] = from;
      }
    }
  }

  /** Readings of every whole stretch; times from `from_s`, where the first value begins. */
  readings(from_s: number): Sustained[] {
    return this.lengths
      .filter(({ count }) => this.taken >= count)
      .flatMap(({ seconds, mean, meanFrom, held, heldFrom }) =>
        this.names.map((channel, c) => ({
          channel,
          over_s: seconds,
          mean: mean[c]!,
          mean_s: from_s + meanFrom[c]! * this.width_s,
          held: held[c]!,
          held_s: from_s + heldFrom[c]! * this.width_s,
        })),
      );
  }
}
