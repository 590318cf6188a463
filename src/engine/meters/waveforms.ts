/**
 * A run's waveforms as they come, one row after the other: at the end of every step, or evenly spaced, as means over
 * adjacent intervals or through a low-pass. Nothing is kept here; who takes a row copies what it needs of it.
 */
import type { Channel } from '../../channels/channel.ts';
import type { ColumnSeries } from '../../channels/series.ts';
import { Bins, type EmitMeans } from './bins.ts';
import { LowPass, ratio } from './low-pass.ts';

/** `mean`: over the interval; `low-pass`: flat to 0.3 of the rate, what folds below that down by 80 dB. */
export type WaveformFilter = 'mean' | 'low-pass';

export const waveformFilters: readonly WaveformFilter[] = ['mean', 'low-pass'];

/** When a row is given out: at each step's end, or evenly at a rate through a filter. */
export type Pace =
  | { readonly kind: 'every-step' }
  | { readonly kind: 'rate'; readonly rate_Hz: number; readonly filter: WaveformFilter };

export interface WaveformOrder {
  readonly series: readonly ColumnSeries[];
  readonly pace: Pace;
  /** The values of the series at `time_s`, in their order; valid only during the call. */
  take(time_s: number, values: Float64Array): void;
}

/** Ticks that what is averaged first lasts: the whole interval, or a twentieth of it before a low-pass. */
export function ticksAveraged(rate_Hz: number, filter: WaveformFilter, tick_s: number): number {
  return 1 / (rate_Hz * (filter === 'mean' ? 1 : ratio) * tick_s);
}

export class WaveformMeter {
  private readonly order: WaveformOrder;
  private readonly tick_s: number;
  /** Channels of series k: places from `first[k]` up to `first[k + 1]` of `places`. */
  private readonly first: Int32Array;
  private readonly places: Int32Array;
  private readonly row: Float64Array;
  private readonly bins: Bins | null;
  private readonly lowPass: LowPass | null;
  /** Takes a finished bin. */
  private readonly emit: EmitMeans = (rows, at) => this.take(rows, at);
  private readonly rate_Hz: number;
  private rows = 0;

  /** `mostTicks`: longest step. */
  constructor(channels: readonly Channel[], order: WaveformOrder, mostTicks: number, tick_s: number) {
    const { series, pace } = order;
    this.order = order;
    this.tick_s = tick_s;
    const index = new Map(channels.map(({ id }, k) => [id, k]));
    const own = series.map(({ of }) => of.map((id) => placeIn(index, id)));
    this.first = new Int32Array(series.length + 1);
    for (let k = 0; k < series.length; k++) this.first[k + 1] = this.first[k]! + own[k]!.length;
    const catalogue = Int32Array.from(own.flat());
    this.row = new Float64Array(series.length);
    this.rate_Hz = pace.kind === 'rate' ? pace.rate_Hz : Number.NaN;
    if (pace.kind === 'every-step') {
      this.places = catalogue;
      this.bins = null;
      this.lowPass = null;
      return;
    }
    const { rate_Hz, filter } = pace;
    // Bins hand on the channels in the order of the series, each as often as it is needed.
    this.places = catalogue.map((_, k) => k);
    const width = Math.round(ticksAveraged(rate_Hz, filter, tick_s));
    this.lowPass = filter === 'mean' ? null : new LowPass(catalogue.length);
    this.bins = new Bins(catalogue, 0, width, mostTicks);
  }

  /** The present before the first step. */
  start(values: Float64Array): void {
    this.bins?.start(values);
    if (this.bins === null) this.give(0, values, 0);
    else this.lowPass?.start(this.bins.b);
  }

  step(tick0: number, tick1: number, values: Float64Array): void {
    if (this.bins === null) this.give(tick1 * this.tick_s, values, 0);
    else if (this.bins.feed(tick0, tick1, values) > 0) this.bins.hand(this.emit);
  }

  private take(means: Float64Array, at: number): void {
    if (this.lowPass === null) this.even(means, at);
    else if (this.lowPass.feed(means, at)) this.even(this.lowPass.sample, 0);
  }

  /** The run is over: what the low-pass still holds of whole intervals is given out. */
  close(): void {
    const { lowPass } = this;
    lowPass?.close(() => this.even(lowPass.sample, 0));
  }

  /** An evenly spaced row stands for the middle of its interval. */
  private even(values: Float64Array, at: number): void {
    this.give((this.rows + 0.5) / this.rate_Hz, values, at);
    this.rows++;
  }

  private give(time_s: number, values: Float64Array, at: number): void {
    const { first, places, row } = this;
    for (let k = 0; k < row.length; k++) {
      const end = first[k + 1]!;
      let sum = values[at + places[first[k]!]!]!;
      for (let p = first[k]! + 1; p < end; p++) sum += values[at + places[p]!]!;
      row[k] = sum;
    }
    this.order.take(time_s, row);
  }
}

function placeIn(index: ReadonlyMap<string, number>, id: string): number {
  const k = index.get(id);
  if (k === undefined) throw new RangeError(`no channel ${id} in a catalogue of ${index.size}`);
  return k;
}
