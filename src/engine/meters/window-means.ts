/** 10 ms means of the totals, the shelves' currents and each feeder's AC power: the ground of ramps and ranges. */
import type { Channel } from '../../channels/channel.ts';
import type { Network } from '../../network/network.ts';
import type { WindowMeans } from '../result.ts';
import { Bins } from './bins.ts';
import { Growing } from './growing.ts';

/** Width of a window [s]. */
export const meanWidth_s = 0.01;

export class WindowMeter {
  private readonly picked: readonly number[];
  private readonly names: readonly string[];
  private readonly feeders: readonly { readonly id: string; readonly from: readonly number[] }[];
  private readonly columns: readonly Growing[];
  private readonly a: Float64Array;
  private readonly b: Float64Array;
  private readonly bins: Bins;
  private readonly from_s: number;

  constructor(channels: readonly Channel[], network: Network, from: number, tick_s: number) {
    const { shelves, feeders } = network.scenario;
    const at = (id: string): number => channels.findIndex((channel) => channel.id === id);
    const kept = channels.filter((c) => c.kind === 'total' || c.kind === 'shelf-current');
    this.picked = kept.map((channel) => at(channel.id));
    this.feeders = feeders.map(({ id }) => ({
      id: `${id}.ac_power_W`,
      from: shelves.filter((shelf) => shelf.feeder === id).map((shelf) => at(`${shelf.id}.ac_power_W`)),
    }));
    this.names = [...kept.map((channel) => channel.id), ...this.feeders.map((feeder) => feeder.id)];
    this.columns = this.names.map(() => new Growing());
    this.a = new Float64Array(this.names.length);
    this.b = new Float64Array(this.names.length);
    this.from_s = from * tick_s;
    this.bins = new Bins(from, Math.round(meanWidth_s / tick_s), this.names.length, (means) => {
      for (let c = 0; c < means.length; c++) this.columns[c]!.push(means[c]!);
    });
  }

  private pick(out: Float64Array, values: Float64Array): void {
    let o = 0;
    for (const k of this.picked) out[o++] = values[k]!;
    for (const feeder of this.feeders) {
      let sum = 0;
      for (const k of feeder.from) sum += values[k]!;
      out[o++] = sum;
    }
  }

  start(values: Float64Array): void {
    this.pick(this.b, values);
  }

  take(tick0: number, tick1: number, values: Float64Array): void {
    this.a.set(this.b);
    this.pick(this.b, values);
    this.bins.take(tick0, this.a, tick1, this.b);
  }

  reading(): WindowMeans {
    return {
      width_s: meanWidth_s,
      from_s: this.from_s,
      columns: new Map(this.names.map((name, c) => [name, this.columns[c]!.values()])),
    };
  }
}
