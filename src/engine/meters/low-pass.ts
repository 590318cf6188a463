/**
 * Means over fine bins through a linear-phase low-pass, one sample in twenty. The low-pass also takes back the droop of
 * the means, so that what comes out at a rate R is flat to 0.3 R, and what folds into that range is down by 80 dB; only
 * what lies within 0.3 R of 20 R and its multiples is down by less (36 dB at the edges).
 * Window design: J. F. Kaiser's rule for 80 dB (β = 0.1102 (A − 8.7)), textbook.
 */
import { cosine, sine } from '../../base/sine.ts';

/** Fine bins to a sample. */
export const ratio = 20;
/** A multiple of eight: half of them are summed four at a time. */
const taps = 14 * ratio;

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
  private readonly h: Float64Array;
  /** The last means of each channel, held twice over so that they can be read in one piece from `place`. */
  private readonly ring: readonly Float64Array[];
  private readonly sample: Float64Array;
  private readonly emit: (sample: Float64Array) => void;
  private place = 0;
  private seen = 0;
  private given = 0;

  /** `emit` gets each sample, one value a channel, valid only during the call. */
  constructor(channels: number, emit: (sample: Float64Array) => void) {
    made ??= coefficients();
    this.h = made;
    this.ring = Array.from({ length: channels }, () => new Float64Array(2 * taps));
    this.sample = new Float64Array(channels);
    this.emit = emit;
  }

  /** Before the first bin every channel has stood at its value here for ever. */
  start(values: Float64Array): void {
    this.ring.forEach((ring, c) => {
      ring.fill(values[c]!);
    });
  }

  /** The means of one fine bin, one channel after the other from `at` on. */
  take(rows: Float64Array, at: number): void {
    const { place, ring: rings } = this;
    for (let c = 0; c < rings.length; c++) {
      const ring = rings[c]!;
      const mean = rows[at + c]!;
      ring[place] = mean;
      ring[place + taps] = mean;
    }
    this.place = place + 1 < taps ? place + 1 : 0;
    this.seen++;
    // Sample j is centred ratio/2 fine bins after its start: the middle of the filter must stand there.
    const behind = this.seen - taps / 2 - ratio / 2;
    if (behind >= 0 && behind % ratio === 0) this.coarse();
  }

  /** The filter is symmetric, so both halves share their coefficients; four sums keep the adder busy. */
  private coarse(): void {
    const { h, place, sample } = this;
    for (let c = 0; c < this.ring.length; c++) {
      const ring = this.ring[c]!;
      const end = place + taps - 1;
      let s0 = 0;
      let s1 = 0;
      let s2 = 0;
      let s3 = 0;
      for (let k = 0; k < taps / 2; k += 4) {
        s0 += h[k]! * (ring[place + k]! + ring[end - k]!);
        s1 += h[k + 1]! * (ring[place + k + 1]! + ring[end - k - 1]!);
        s2 += h[k + 2]! * (ring[place + k + 2]! + ring[end - k - 2]!);
        s3 += h[k + 3]! * (ring[place + k + 3]! + ring[end - k - 3]!);
      }
      sample[c] = s0 + s1 + (s2 + s3);
    }
    this.given++;
    this.emit(sample);
  }

  /** Gives out what is left of whole samples by holding the last means for half the filter. */
  close(): void {
    const wanted = Math.floor(this.seen / ratio);
    const last = Float64Array.from(this.ring, (ring) => ring[this.place + taps - 1]!);
    while (this.ring.length > 0 && this.given < wanted) this.take(last, 0);
  }
}
