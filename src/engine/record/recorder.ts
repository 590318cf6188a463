/**
 * The recorder: what a run leaves to be looked at and judged. Steps are gathered in leaves; each leaf feeds the buckets
 * of the whole run, the exact extremes, and the close-ups in which every step is kept.
 */
import type { Channel } from '../../channels/channel.ts';
import type { Extreme, Recording } from '../result.ts';
import { closeUpsOf } from './close-ups.ts';
import { Closing } from './closing.ts';
import { Extremes } from './extremes.ts';
import { KeptLeaves } from './kept-leaves.ts';
import { Leaves } from './leaves.ts';
import { Levels, mostBuckets } from './levels.ts';
import { Peaks } from './peaks.ts';
import { WorstEdges } from './worst-edges.ts';

/** What the recorder has of the kernel. */
export interface LeafKernel {
  /** `Closing.close`, by whichever form of the kernel runs. */
  close(closing: Closing, judged: boolean): void;
  /** Zeros where the kernel reads them. */
  column(length: number): Float64Array;
}

const plainLeaves: LeafKernel = {
  close: (closing, judged) => closing.close(judged),
  column: (length) => new Float64Array(length),
};

export class Recorder {
  /** What the steps go into, and where a leaf of them goes. */
  readonly closing: Closing;
  private readonly leaves: Leaves;
  private readonly channels: readonly Channel[];
  private readonly tick_s: number;
  private readonly kernel: LeafKernel;
  private readonly levels: Levels;
  private readonly extremes: Extremes;
  private readonly kept: KeptLeaves;
  private readonly edges: WorstEdges;
  private readonly peaks: Peaks;

  /** `runTicks`: length of the run; no bucket is wider than its even share of it, until the store fills. */
  constructor(
    channels: readonly Channel[],
    runTicks: number,
    tick_s: number,
    kernel: LeafKernel = plainLeaves,
  ) {
    const n = channels.length;
    this.channels = channels;
    this.tick_s = tick_s;
    this.kernel = kernel;
    const wideEnough = Math.max(1, Math.floor(runTicks / (mostBuckets / 4)));
    this.leaves = new Leaves(n, wideEnough, (length) => kernel.column(length));
    this.levels = new Levels(n, wideEnough);
    this.extremes = new Extremes(channels);
    this.kept = new KeptLeaves(this.leaves);
    const nodes = channels.filter(({ kind }) => kind === 'node-voltage').length;
    this.edges = new WorstEdges(this.kept, nodes, tick_s);
    this.peaks = new Peaks(this.kept, channels, tick_s);
    const { extremes, peaks, edges, levels } = this;
    this.closing = new Closing(this.leaves, { extremes, peaks, edges, bucket: levels.bucket });
  }

  /** The present before the first step. */
  start(tick: number, values: Float64Array): void {
    this.levels.start(tick);
    this.leaves.begin(tick, values);
  }

  /** The load jumps or something happens at `tick`. */
  edge(tick: number): void {
    this.edges.edge(tick);
  }

  /** Takes a step that ends at `tick` with `values`; `judged`: it counts for the extremes. */
  take(tick: number, values: Float64Array, judged: boolean): void {
    if (this.closing.add(tick, values, judged)) this.leafDone();
  }

  /** Ends leaf and bucket here with the values that stand, so that what is judged and what is not never share one. */
  cut(values: Float64Array, judged: boolean): void {
    const { leaves } = this;
    if (leaves.filled > 0) this.close(judged);
    this.levels.close(leaves.from);
    leaves.begin(leaves.from, values);
  }

  private close(judged: boolean): void {
    this.kernel.close(this.closing, judged);
    this.leafDone();
  }

  /** A leaf has been closed: its bucket where that is due, and what lies far enough behind is kept. */
  leafDone(): void {
    const tick = this.leaves.from;
    this.levels.leafDone(tick);
    this.peaks.come(tick);
    this.edges.come(tick);
  }

  /** From the leaf now open on, a channel does not count for the extremes, or counts again. */
  setAside(channel: number, aside: boolean): void {
    this.closing.aside[channel] = aside ? 1 : 0;
  }

  /** The record of the run, which is over; the open leaf is closed, `judged` or not. */
  recording(judged: boolean): Recording {
    const { channels, leaves, tick_s } = this;
    if (leaves.filled > 0) this.close(judged);
    this.levels.close(leaves.from);
    this.edges.finish();
    this.peaks.come(Number.POSITIVE_INFINITY);
    const { count, edges, ...columns } = this.levels.buckets();
    return {
      channels,
      bucketCount: count,
      edges_s: edges.map((tick) => tick * tick_s),
      ...columns,
      closeUps: closeUpsOf(this.kept.all(), channels.length, tick_s),
    };
  }

  readings(): Extreme[] {
    return this.extremes.readings(this.tick_s);
  }
}
