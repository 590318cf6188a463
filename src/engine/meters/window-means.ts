/** 10 ms means of the totals, the shelves' currents and each feeder's AC power: the ground of ramps and ranges. */
import type { Channel } from '../../channels/channel.ts';
import type { Network } from '../../network/network.ts';
import type { WindowMeans } from '../result.ts';
import { Bins } from './bins.ts';
import { Growing } from './growing.ts';

/** Width of a window [s]. */
export const meanWidth_s = 0.01;

export class WindowMeter {
  readonly bins: Bins;
  private readonly names: readonly string[];
  private readonly feeders: readonly { readonly id: string; readonly from: readonly number[] }[];
  private readonly columns: readonly Growing[];
  private readonly from_s: number;

  /** `mostTicks`: longest step; `ticks`: length of the judged window. */
  constructor(
    channels: readonly Channel[],
    network: Network,
    from: number,
    mostTicks: number,
    tick_s: number,
    ticks = 0,
  ) {
    const { shelves, feeders } = network.scenario;
    const kept = channels.filter((c) => c.kind === 'total' || c.kind === 'shelf-current');
    const ac = channels.filter((c) => c.kind === 'shelf-ac-power');
    const binned = [...kept, ...ac];
    this.names = kept.map((channel) => channel.id);
    this.feeders = feeders.map(({ id }) => ({
      id: `${id}.ac_power_W`,
      from: shelves
        .filter((shelf) => shelf.feeder === id)
        .map((shelf) => binned.findIndex((channel) => channel.id === `${shelf.id}.ac_power_W`)),
    }));
    const expected = Math.floor(ticks / Math.round(meanWidth_s / tick_s));
    this.columns = [...kept, ...feeders].map(() => new Growing(expected));
    this.from_s = from * tick_s;
    const index = Int32Array.from(binned, (channel) => channels.indexOf(channel));
    const width = Math.round(meanWidth_s / tick_s);
    this.bins = new Bins(index, from, width, mostTicks, (rows, at) => this.keep(rows, at));
  }

  private keep(rows: Float64Array, at: number): void {
    const n = this.names.length;
    for (let c = 0; c < n; c++) this.columns[c]!.push(rows[at + c]!);
    this.feeders.forEach(({ from }, f) => {
      let sum = 0;
      for (const k of from) sum += rows[at + k]!;
      this.columns[n + f]!.push(sum);
    });
  }

  reading(): WindowMeans {
    const names = [...this.names, ...this.feeders.map((feeder) => feeder.id)];
    return {
      width_s: meanWidth_s,
      from_s: this.from_s,
      columns: new Map(names.map((name, c) => [name, this.columns[c]!.values()])),
    };
  }
}
