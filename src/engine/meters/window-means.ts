/**
 * 10 ms means of the totals, the shelves' currents, the line voltages of feeders that give way and each feeder's AC power:
 * the ground of ramps and ranges. Those of sleds and battery shelves go to the meter of what they keep up and are not stored.
 */
import type { Channel, ChannelKind } from '../../channels/channel.ts';
import type { Network } from '../../network/network.ts';
import type { Sustained, WindowMeans } from '../result.ts';
import { Bins } from './bins.ts';
import { Growing } from './growing.ts';
import { SustainedMeter } from './sustained.ts';

/** Width of a window [s]. */
export const meanWidth_s = 0.01;

const keptKinds: ReadonlySet<ChannelKind> = new Set(['total', 'shelf-current', 'supply-voltage']);

export interface WindowSite {
  /** First tick of the judged window, and its length. */
  readonly from: number;
  readonly ticks: number;
  /** Longest step. */
  readonly mostTicks: number;
  readonly tick_s: number;
  readonly sustained_s: readonly number[];
}

export class WindowMeter {
  readonly bins: Bins;
  private readonly names: readonly string[];
  private readonly feeders: readonly { readonly id: string; readonly from: readonly number[] }[];
  private readonly columns: readonly Growing[];
  private readonly sustained: SustainedMeter;
  /** Place of the first sustained channel in a row of means. */
  private readonly sustainedAt: number;
  private readonly from_s: number;
  /** What each column's mean is taken of, as it stood when the window began. */
  private readonly atStart: Record<string, number> = {};
  private readonly index: Int32Array;

  constructor(channels: readonly Channel[], network: Network, site: WindowSite) {
    const { from, ticks, mostTicks, tick_s, sustained_s } = site;
    const { shelves, feeders } = network.scenario;
    const kept = channels.filter(({ kind }) => keptKinds.has(kind));
    const ac = channels.filter((c) => c.kind === 'shelf-ac-power');
    const keepUp =
      sustained_s.length === 0
        ? []
        : channels.filter((c) => c.kind === 'sled-power' || c.kind === 'battery-current');
    const binned = [...kept, ...ac, ...keepUp];
    this.names = kept.map((channel) => channel.id);
    this.feeders = feeders.map(({ id }) => ({
      id: `${id}.ac_power_W`,
      from: shelves
        .filter((shelf) => shelf.feeder === id)
        .map((shelf) => binned.findIndex((channel) => channel.id === `${shelf.id}.ac_power_W`)),
    }));
    const expected = Math.floor(ticks / Math.round(meanWidth_s / tick_s));
    this.columns = [...kept, ...feeders].map(() => new Growing(expected));
    this.sustained = new SustainedMeter(
      keepUp.map(({ id }) => id),
      sustained_s,
      meanWidth_s,
      expected,
    );
    this.sustainedAt = kept.length + ac.length;
    this.from_s = from * tick_s;
    const index = Int32Array.from(binned, (channel) => channels.indexOf(channel));
    this.index = index;
    const width = Math.round(meanWidth_s / tick_s);
    this.bins = new Bins(index, from, width, mostTicks);
  }

  /** The judged window begins with these values of all channels. */
  start(values: Float64Array): void {
    const { names, feeders, index, atStart } = this;
    names.forEach((name, c) => {
      atStart[name] = values[index[c]!]!;
    });
    for (const { id, from } of feeders) {
      atStart[id] = from.reduce((sum, k) => sum + values[index[k]!]!, 0);
    }
    this.bins.start(values);
  }

  /** Keeps the windows that the last step has finished. */
  keep(): void {
    const { count, finished, index } = this.bins;
    for (let k = 0; k < count[0]!; k++) this.put(finished, k * index.length);
  }

  private put(rows: Float64Array, at: number): void {
    const n = this.names.length;
    for (let c = 0; c < n; c++) this.columns[c]!.push(rows[at + c]!);
    for (let f = 0; f < this.feeders.length; f++) {
      let sum = 0;
      for (const k of this.feeders[f]!.from) sum += rows[at + k]!;
      this.columns[n + f]!.push(sum);
    }
    this.sustained.take(rows, at + this.sustainedAt);
  }

  sustainedReadings(): Sustained[] {
    return this.sustained.readings(this.from_s);
  }

  reading(): WindowMeans {
    const names = [...this.names, ...this.feeders.map((feeder) => feeder.id)];
    return {
      width_s: meanWidth_s,
      from_s: this.from_s,
      at_start: this.atStart,
      columns: new Map(names.map((name, c) => [name, this.columns[c]!.values()])),
    };
  }
}
