/**
 * Uniform, anti-aliased streams for spectra: means over 50 µs (whose first null lies at 20 kHz), then the low-pass of
 * `low-pass.ts` and one sample in twenty, 1 kHz: flat to 300 Hz, and free of what folds there but within 300 Hz of
 * 20 kHz and its multiples, where the averaged models end.
 */
import type { Int } from '../../base/int.ts';
import type { Stream } from '../result.ts';
import { Bins } from './bins.ts';
import { Growing } from './growing.ts';
import { flat_ratio, LowPass, ratio } from './low-pass.ts';

const rate_Hz = 1000;
const fineWidth_s = 1 / (ratio * rate_Hz);

/** Flat to within 0.1 % up to here [Hz]. */
export const flatTo_Hz = flat_ratio * rate_Hz;

export class StreamMeter {
  private readonly names: readonly string[];
  private readonly columns: readonly Growing[];
  private readonly channelCount: Int;
  readonly bins: Bins;
  private readonly lowPass: LowPass;
  /** How many samples the last step made, one value, and the samples, one row of channels each. */
  private readonly made: Int32Array;
  private readonly samples: Float64Array;
  private readonly from_s: number;

  /** Channels by name and place in the catalogue; `mostTicks`: longest step; `ticks`: length of the whole stream. */
  constructor(
    picked: readonly { readonly id: string; readonly index: number }[],
    from: number,
    mostTicks: number,
    tick_s: number,
    ticks = 0,
  ) {
    this.names = picked.map((p) => p.id);
    const index = Int32Array.from(picked, (p) => p.index);
    const width = Math.round(fineWidth_s / tick_s);
    const expected = Math.floor(ticks / (ratio * width));
    this.columns = picked.map(() => new Growing(expected));
    this.channelCount = picked.length;
    this.bins = new Bins(index, from, width, mostTicks);
    this.lowPass = new LowPass(picked.length);
    this.made = new Int32Array(1);
    this.samples = new Float64Array(picked.length * (Math.ceil(mostTicks / (ratio * width)) + 2));
    this.from_s = from * tick_s;
  }

  start(values: Float64Array): void {
    this.bins.start(values);
    this.lowPass.start(this.bins.b);
  }

  /** A step from `tick0` to `tick1`, at whose end the channels have `values`. Returns how many samples it has made. */
  feed(tick0: number, tick1: number, values: Float64Array): Int {
    const { channelCount: n, bins, lowPass, samples } = this;
    const { sample } = lowPass;
    const count: Int = bins.feed(tick0, tick1, values);
    let made: Int = 0;
    for (let k: Int = 0; k < count; k++) {
      if (!lowPass.feed(bins.finished, k * n)) continue;
      for (let c = 0; c < n; c++) samples[made * n + c] = sample[c]!;
      made++;
    }
    this.made[0] = made;
    return made;
  }

  /** Keeps what the last step has made. */
  keep(): void {
    for (let k = 0; k < this.made[0]!; k++) this.push(this.samples, k * this.channelCount);
  }

  private push(samples: Float64Array, at: number): void {
    for (let c = 0; c < this.columns.length; c++) this.columns[c]!.push(samples[at + c]!);
  }

  /** Closes the stream by holding the last value for half the filter. */
  readings(): Stream[] {
    this.lowPass.close(() => this.push(this.lowPass.sample, 0));
    return this.names.map((channel, c) => ({
      channel,
      rate_Hz,
      from_s: this.from_s,
      samples: this.columns[c]!.values(),
      flat_to_Hz: flatTo_Hz,
    }));
  }
}
