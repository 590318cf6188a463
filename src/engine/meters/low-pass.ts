/**
 * Means over fine bins through a linear-phase low-pass, one sample in twenty. The low-pass also takes back the droop of
 * the means, so that what comes out at a rate R is flat to 0.3 R, and what folds into that range is down by 80 dB; only
 * what lies within 0.3 R of 20 R and its multiples is down by less (36 dB at the edges).
 * Window design: J. F. Kaiser's rule for 80 dB (β = 0.1102 (A − 8.7)), textbook.
 */
import type { Int } from '../../base/int.ts';
import { cosine, sine } from '../../base/sine.ts';

/** Fine bins to a sample. */
export const ratio: Int = 20;
/** Fine bins of fourteen samples, and half as many: a multiple of four, for they are summed four at a time. */
const taps: Int = 280;
const half: Int = 140;

/** Flat to within 0.1 % up to this part of the rate. */
export const flat_ratio = 0.3;

/** Modified Bessel function of order zero, by its power series. */
function bessel0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; k < 60; k++) {
    term *= (x / (2 * k)) * (x / (2 * k));
    sum += term;
  }
  return sum;
}

/** Low-pass to half the coarse rate whose pass band is 1/sinc, the inverse of a mean over one fine bin. */
function coefficients(): Float64Array {
  const beta = 0.1102 * (80 - 8.7);
  const cut = 0.5 / ratio;
  const grid = 500;
  const f = Float64Array.from({ length: grid }, (_, k) => ((k + 0.5) / grid) * cut);
  const wanted = f.map((at) => (Math.PI * at) / sine(Math.PI * at));
  const h = new Float64Array(taps);
  // It is symmetric about its middle.
  for (let n = 0; n < taps / 2; n++) {
    const t = n - (taps - 1) / 2;
    let sum = 0;
    for (let k = 0; k < grid; k++) sum += wanted[k]! * cosine(2 * Math.PI * f[k]! * t);
    const edge = (2 * t) / taps;
    h[n] = ((2 * sum * cut) / grid) * (bessel0(beta * Math.sqrt(1 - edge * edge)) / bessel0(beta));
    h[taps - 1 - n] = h[n]!;
  }
  const gain = h.reduce((a, b) => a + b, 0);
  return h.map((value) => value / gain);
}

/** The same for every run: made once, for it takes as long as a tenth of a second of simulated time. */
let made: Float64Array | null = null;

export class LowPass {
  private readonly channelCount: Int;
  private readonly h: Float64Array;
  /**
   * The last means, channel after channel, each held twice over so that they can be read in one piece from `place`: where
   * the next one goes, one value.
   */
  private readonly ring: Float64Array;
  private readonly place: Int32Array;
  /** Fine bins until the next sample is due, one value. */
  private readonly left: Int32Array;
  /** Fine bins taken and samples made, one value each. */
  private readonly seen: Float64Array;
  private readonly given: Float64Array;
  /** The sample last made, one value a channel. */
  readonly sample: Float64Array;

  constructor(channelCount: number) {
    made ??= coefficients();
    this.channelCount = channelCount;
    this.h = made;
    this.ring = new Float64Array(2 * taps * channelCount);
    this.place = new Int32Array(1);
    // Sample j is centred ratio/2 fine bins after its start: the middle of the filter must stand there.
    this.left = Int32Array.of(half + ratio / 2);
    this.seen = new Float64Array(1);
    this.given = new Float64Array(1);
    this.sample = new Float64Array(channelCount);
  }

  /** Before the first bin every channel has stood at its value here for ever. */
  start(values: Float64Array): void {
    for (let c = 0; c < this.channelCount; c++) this.ring.fill(values[c]!, 2 * taps * c, 2 * taps * (c + 1));
  }

  /** The means of one fine bin, one channel after the other from `at` on. True: they have made a sample. */
  feed(rows: Float64Array, at: Int): boolean {
    const { channelCount, ring } = this;
    const place: Int = this.place[0]!;
    for (let c = 0; c < channelCount; c++) {
      const mean = rows[at + c]!;
      ring[2 * taps * c + place] = mean;
      ring[2 * taps * c + place + taps] = mean;
    }
    this.place[0] = place + 1 < taps ? place + 1 : 0;
    this.seen[0]! += 1;
    this.left[0]! -= 1;
    if (this.left[0]! > 0) return false;
    this.left[0] = ratio;
    this.given[0]! += 1;
    this.filter();
    return true;
  }

  /** The filter is symmetric, so both halves share their coefficients; four sums keep the adder busy. */
  private filter(): void {
    const { channelCount, h, ring, sample } = this;
    const place: Int = this.place[0]!;
    for (let c = 0; c < channelCount; c++) {
      const first: Int = 2 * taps * c + place;
      const last: Int = first + taps - 1;
      let s0 = 0;
      let s1 = 0;
      let s2 = 0;
      let s3 = 0;
      for (let k = 0; k < half; k += 4) {
        s0 += h[k]! * (ring[first + k]! + ring[last - k]!);
        s1 += h[k + 1]! * (ring[first + k + 1]! + ring[last - k - 1]!);
        s2 += h[k + 2]! * (ring[first + k + 2]! + ring[last - k - 2]!);
        s3 += h[k + 3]! * (ring[first + k + 3]! + ring[last - k - 3]!);
      }
      sample[c] = s0 + s1 + (s2 + s3);
    }
  }

  /** Makes what is left of whole samples by holding the last means for half the filter; `emit` hears of each. */
  close(emit: () => void): void {
    const wanted = Math.floor(this.seen[0]! / ratio);
    const last = Float64Array.from({ length: this.channelCount }, (_, c) => this.lastMean(c));
    while (this.channelCount > 0 && this.given[0]! < wanted) if (this.feed(last, 0)) emit();
  }

  private lastMean(channel: number): number {
    return this.ring[2 * taps * channel + this.place[0]! + taps - 1]!;
  }
}
