/**
 * Uniform, anti-aliased streams for spectra: means over 50 µs (whose first null lies at 20 kHz), then the low-pass of
 * `low-pass.ts` and one sample in twenty, 1 kHz: flat to 300 Hz, and free of what folds there but within 300 Hz of
 * 20 kHz and its multiples, where the averaged models end.
 */
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
  private readonly lowPass: LowPass;
  readonly bins: Bins;
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
    this.lowPass = new LowPass(picked.length, (sample) => {
      for (let c = 0; c < sample.length; c++) this.columns[c]!.push(sample[c]!);
    });
    this.from_s = from * tick_s;
    this.bins = new Bins(index, from, width, mostTicks, (rows, at) => this.lowPass.take(rows, at));
  }

  start(values: Float64Array): void {
    this.bins.start(values);
    this.lowPass.start(this.bins.b);
  }

  /** Closes the stream by holding the last value for half the filter. */
  readings(): Stream[] {
    this.lowPass.close();
    return this.names.map((channel, c) => ({
      channel,
      rate_Hz,
      from_s: this.from_s,
      samples: this.columns[c]!.values(),
      flat_to_Hz: flatTo_Hz,
    }));
  }
}
