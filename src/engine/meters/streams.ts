/**
 * Uniform, anti-aliased streams for spectra: means over 50 µs (whose first null lies at 20 kHz), then a
 * linear-phase low-pass and one sample in twenty, 1 kHz. The low-pass also takes back the droop of the means,
 * so that the stream is flat to 300 Hz and what folds into that range is down by 80 dB; only what lies within
 * 300 Hz of 20 kHz and its multiples, where the averaged models end, is down by less (36 dB at the edges).
 * Window design: J. F. Kaiser's rule for 80 dB (β = 0.1102 (A − 8.7)), textbook.
 */
import { cosine, sine } from '../../sine.ts';
import type { Stream } from '../result.ts';
import { Bins } from './bins.ts';
import { Growing } from './growing.ts';

const fineWidth_s = 50e-6;
const ratio = 20;
/** A multiple of eight: half of them are summed four at a time. */
const taps = 14 * ratio;

/** Flat to within 0.1 % up to here [Hz]. */
export const flatTo_Hz = 300;

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
function lowPass(): Float64Array {
  const beta = 0.1102 * (80 - 8.7);
  const cut = 0.5 / ratio;
  const grid = 500;
  const h = new Float64Array(taps);
  for (let n = 0; n < taps; n++) {
    const t = n - (taps - 1) / 2;
    let sum = 0;
    for (let k = 0; k < grid; k++) {
      const f = ((k + 0.5) / grid) * cut;
      sum += ((Math.PI * f) / sine(Math.PI * f)) * cosine(2 * Math.PI * f * t);
    }
    const edge = (2 * t) / taps;
    h[n] = ((2 * sum * cut) / grid) * (bessel0(beta * Math.sqrt(1 - edge * edge)) / bessel0(beta));
  }
  const gain = h.reduce((a, b) => a + b, 0);
  return h.map((value) => value / gain);
}

/** The same for every run: made once, for it takes as long as a tenth of a second of simulated time. */
let made: Float64Array | null = null;

export class StreamMeter {
  private readonly names: readonly string[];
  private readonly columns: readonly Growing[];
  private readonly h: Float64Array;
  /** The last means of each channel, held twice over so that they can be read in one piece from `place`. */
  private readonly ring: readonly Float64Array[];
  private place = 0;
  readonly bins: Bins;
  private readonly from_s: number;
  private seen = 0;

  /** Channels by name and place in the catalogue; `mostTicks`: longest step; `ticks`: length of the whole stream. */
  constructor(
    picked: readonly { readonly id: string; readonly index: number }[],
    from: number,
    mostTicks: number,
    tick_s: number,
    ticks = 0,
  ) {
    made ??= lowPass();
    this.h = made;
    this.names = picked.map((p) => p.id);
    const index = Int32Array.from(picked, (p) => p.index);
    const expected = Math.floor(ticks / (ratio * Math.round(fineWidth_s / tick_s)));
    this.columns = picked.map(() => new Growing(expected));
    this.ring = picked.map(() => new Float64Array(2 * taps));
    this.from_s = from * tick_s;
    const width = Math.round(fineWidth_s / tick_s);
    this.bins = new Bins(index, from, width, mostTicks, (rows, at) => this.fine(rows, at));
  }

  start(values: Float64Array): void {
    this.bins.start(values);
    this.ring.forEach((ring, c) => {
      ring.fill(this.bins.b[c]!);
    });
  }

  private fine(rows: Float64Array, at: number): void {
    const { place, ring: rings } = this;
    for (let c = 0; c < rings.length; c++) {
      const ring = rings[c]!;
      const mean = rows[at + c]!;
      ring[place] = mean;
      ring[place + taps] = mean;
    }
    this.place = place + 1 < taps ? place + 1 : 0;
    this.seen++;
    // Coarse sample j is centred ratio/2 fine bins after its start: the middle of the filter must stand there.
    const behind = this.seen - taps / 2 - ratio / 2;
    if (behind >= 0 && behind % ratio === 0) this.coarse();
  }

  /** The filter is symmetric, so both halves share their coefficients; four sums keep the adder busy. */
  private coarse(): void {
    const { h, place } = this;
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
      this.columns[c]!.push(s0 + s1 + (s2 + s3));
    }
  }

  /** Closes the stream by holding the last value for half the filter. */
  readings(): Stream[] {
    const wanted = Math.floor(this.seen / ratio);
    const last = this.ring.map((ring) => ring[this.place + taps - 1]!);
    while (this.columns.length > 0 && this.columns[0]!.length < wanted) this.fine(Float64Array.from(last), 0);
    return this.names.map((channel, c) => ({
      channel,
      rate_Hz: 1 / (ratio * fineWidth_s),
      from_s: this.from_s,
      samples: this.columns[c]!.values(),
      flat_to_Hz: flatTo_Hz,
    }));
  }
}
