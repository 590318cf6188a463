/**
 * The recorder: what a run leaves to be looked at and judged. Steps are gathered in leaves; each leaf feeds the buckets
 * of the whole run, the exact extremes, and the close-ups in which every step is kept.
 */
import type { Channel } from '../../channels/channel.ts';
import type { Extreme, Recording } from '../result.ts';
import { closeUpsOf } from './close-ups.ts';
import { Extremes } from './extremes.ts';
import { KeptLeaves } from './kept-leaves.ts';
import { Leaf, leafSteps } from './leaf.ts';
import { Levels, mostBuckets } from './levels.ts';
import { Peaks } from './peaks.ts';
import { WorstEdges } from './worst-edges.ts';

export class Recorder {
  /** What the steps go into. */
  readonly leaf: Leaf;
  private readonly channels: readonly Channel[];
  private readonly tick_s: number;
  private readonly wideEnough: number;
  private readonly levels: Levels;
  private readonly extremes: Extremes;
  private readonly kept: KeptLeaves;
  private readonly edges: WorstEdges;
  private readonly peaks: Peaks;
  /** Sums a leaf up: in the kernel where there is one. */
  private readonly sumUp: (leaf: Leaf) => void;
  /** 1 for channels that just now do not count for the extremes. */
  private readonly aside: Uint8Array;

  /** `runTicks`: length of the run; no bucket is wider than its even share of it, until the store fills. */
  constructor(
    channels: readonly Channel[],
    runTicks: number,
    tick_s: number,
    sumUp: (leaf: Leaf) => void = (leaf) => leaf.sumUp(),
  ) {
    const n = channels.length;
    this.channels = channels;
    this.tick_s = tick_s;
    this.sumUp = sumUp;
    this.wideEnough = Math.max(1, Math.floor(runTicks / (mostBuckets / 4)));
    this.leaf = new Leaf(n);
    this.levels = new Levels(n, this.wideEnough);
    this.extremes = new Extremes(channels);
    this.kept = new KeptLeaves(n);
    const nodes = channels.filter(({ kind }) => kind === 'node-voltage').length;
    this.edges = new WorstEdges(this.kept, nodes, tick_s);
    this.peaks = new Peaks(this.kept, channels, tick_s);
    this.aside = new Uint8Array(n);
  }

  /** The present before the first step. */
  start(tick: number, values: Float64Array): void {
    this.levels.start(tick);
    this.leaf.begin(tick, values);
  }

  /** The load jumps or something happens at `tick`. */
  edge(tick: number): void {
    this.edges.edge(tick);
  }

  /** A step has gone into the leaf, which is closed when it is due; `judged`: it counts for the extremes. */
  stepDone(tick: number, judged: boolean): void {
    const { leaf } = this;
    if (leaf.filled[0]! >= leafSteps || tick - leaf.ticks[0]! >= this.wideEnough) this.close(judged);
  }

  /** Ends leaf and bucket here with the values that stand, so that what is judged and what is not never share one. */
  cut(values: Float64Array, judged: boolean): void {
    const { leaf } = this;
    if (leaf.filled[0]! > 0) this.close(judged);
    const tick = leaf.ticks[0]!;
    this.levels.close(tick);
    leaf.begin(tick, values);
  }

  private close(judged: boolean): void {
    const { leaf, aside } = this;
    const tick = leaf.ticks[leaf.filled[0]!]!;
    this.sumUp(leaf);
    if (judged) this.extremes.take(leaf, aside);
    this.kept.take(leaf);
    this.edges.take(leaf, tick, aside);
    this.peaks.take(leaf, tick, judged, aside);
    this.levels.take(leaf, tick);
    leaf.turn();
  }

  /** From the leaf now open on, a channel does not count for the extremes, or counts again. */
  setAside(channel: number, aside: boolean): void {
    this.aside[channel] = aside ? 1 : 0;
  }

  /** The record of the run, which is over; the open leaf is closed, `judged` or not. */
  recording(judged: boolean): Recording {
    const { leaf, levels, tick_s } = this;
    if (leaf.filled[0]! > 0) this.close(judged);
    levels.close(leaf.ticks[0]!);
    this.edges.finish();
    this.peaks.finish();
    const { count, edges, min, max, mean } = levels.buckets();
    return {
      channels: this.channels,
      bucketCount: count,
      edges_s: edges.map((tick) => tick * tick_s),
      min,
      max,
      mean,
      closeUps: closeUpsOf([...this.edges.leaves(), ...this.peaks.leaves()], this.channels, tick_s),
    };
  }

  readings(): Extreme[] {
    return this.extremes.readings(this.tick_s);
  }
}
