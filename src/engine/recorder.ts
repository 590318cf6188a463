/**
 * The recorder: smallest and largest value of every channel inside each bucket of time, so that no spike is
 * lost. Buckets are narrow where steps are fine and wide where nothing happens; when the store is full,
 * neighbours merge, so that memory does not grow with time. Keeps the exact extremes of every channel too.
 */

import type { Int } from '../base/int.ts';
import type { Channel } from '../channels/channel.ts';
import type { Extreme, Recording } from './result.ts';

/** Most buckets kept. */
const mostBuckets = 8192;

/** A bucket closes after this many steps, or when it is as wide as its share of the run. */
const stepsPerBucket = 16;

interface Rows {
  readonly min: Float32Array;
  readonly max: Float32Array;
}

/**
 * The rows of the recorder that read out last, for the next of the same size. They take 15 MB; made anew for each
 * run of a study they keep the garbage collector busy on every core.
 */
let spare: Rows | null = null;

function rowsOf(length: number): Rows {
  const rows = spare;
  spare = null;
  return rows !== null && rows.min.length === length
    ? rows
    : { min: new Float32Array(length), max: new Float32Array(length) };
}

export class Recorder {
  private readonly channels: readonly Channel[];
  private readonly channelCount: Int;
  private readonly tick_s: number;
  private readonly edges = new Float64Array(mostBuckets + 1);
  /** Rows of all channels, one a bucket: what is written at once lies together. */
  private readonly min: Float32Array;
  private readonly max: Float32Array;
  /** Smallest and largest value in the open bucket, and when each was reached [tick]. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly lowTick: Float64Array;
  readonly highTick: Float64Array;
  private readonly last: Float64Array;
  private readonly extremeMin: Float64Array;
  private readonly extremeMax: Float64Array;
  private readonly minTick: Float64Array;
  private readonly maxTick: Float64Array;
  /** 1 for channels that just now do not count for the extremes. */
  private readonly aside: Uint8Array;
  private count = 0;
  private steps = 0;
  private wideEnough: number;
  private tick = 0;

  /** `runTicks`: length of the run; no bucket is wider than its even share of it, until the store fills. */
  constructor(channels: readonly Channel[], runTicks: number, tick_s: number) {
    this.channels = channels;
    this.channelCount = channels.length;
    this.tick_s = tick_s;
    const n = channels.length;
    ({ min: this.min, max: this.max } = rowsOf(n * mostBuckets));
    this.low = new Float64Array(n);
    this.high = new Float64Array(n);
    this.lowTick = new Float64Array(n);
    this.highTick = new Float64Array(n);
    this.last = new Float64Array(n);
    this.extremeMin = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
    this.extremeMax = new Float64Array(n).fill(Number.NEGATIVE_INFINITY);
    this.aside = new Uint8Array(n);
    this.minTick = new Float64Array(n);
    this.maxTick = new Float64Array(n);
    this.wideEnough = Math.max(1, Math.floor(runTicks / (mostBuckets / 4)));
  }

  /** The present before the first step. */
  start(tick: number, values: Float64Array): void {
    this.tick = tick;
    this.edges[0] = tick;
    this.open(values);
    this.last.set(values);
  }

  /** Begins a bucket with the values that stand at its edge. */
  private open(values: Float64Array): void {
    this.low.set(values);
    this.high.set(values);
    this.lowTick.fill(this.tick);
    this.highTick.fill(this.tick);
  }

  /** Widens the open bucket by the values at the end of a step. */
  widen(tick: number, values: Float64Array): void {
    const { channelCount, low, high, lowTick, highTick } = this;
    for (let c = 0; c < channelCount; c++) {
      const value = values[c]!;
      if (value < low[c]!) {
        low[c] = value;
        lowTick[c] = tick;
      }
      if (value > high[c]!) {
        high[c] = value;
        highTick[c] = tick;
      }
    }
  }

  /** Counts the step and closes the bucket when it is due; `judged`: the bucket counts for the extremes. */
  stepDone(tick: number, values: Float64Array, judged: boolean): void {
    this.tick = tick;
    this.steps++;
    if (this.steps >= stepsPerBucket || tick - this.edges[this.count]! >= this.wideEnough) {
      this.close(values, judged);
    }
  }

  /** Ends the open bucket here, so that what is judged and what is not never share one. */
  cut(values: Float64Array, judged: boolean): void {
    if (this.steps > 0) this.close(values, judged);
    else this.open(values);
  }

  private close(values: Float64Array, judged: boolean): void {
    const row = this.count * values.length;
    this.min.set(this.low, row);
    this.max.set(this.high, row);
    if (judged) this.keepExtremes();
    this.open(values);
    this.last.set(values);
    this.count++;
    this.edges[this.count] = this.tick;
    this.steps = 0;
    if (this.count === mostBuckets) this.merge();
  }

  /** From the bucket now open on, a channel does not count for the extremes, or counts again. */
  setAside(channel: number, aside: boolean): void {
    this.aside[channel] = aside ? 1 : 0;
  }

  private keepExtremes(): void {
    const { low, high, extremeMin, extremeMax, aside } = this;
    for (let c = 0; c < low.length; c++) {
      if (aside[c]) continue;
      if (low[c]! < extremeMin[c]!) {
        extremeMin[c] = low[c]!;
        this.minTick[c] = this.lowTick[c]!;
      }
      if (high[c]! > extremeMax[c]!) {
        extremeMax[c] = high[c]!;
        this.maxTick[c] = this.highTick[c]!;
      }
    }
  }

  /** Joins neighbouring buckets, and lets new ones be twice as wide. */
  private merge(): void {
    const half = mostBuckets / 2;
    const { min, max } = this;
    const n = this.channels.length;
    for (let k = 0; k < half; k++) {
      for (let c = 0; c < n; c++) {
        const first = 2 * k * n + c;
        min[k * n + c] = Math.min(min[first]!, min[first + n]!);
        max[k * n + c] = Math.max(max[first]!, max[first + n]!);
      }
    }
    for (let k = 0; k <= half; k++) this.edges[k] = this.edges[2 * k]!;
    this.count = half;
    this.wideEnough *= 2;
  }

  /** The record of the run, which is over; the open bucket is closed, `judged` or not. */
  recording(judged: boolean): Recording {
    if (this.steps > 0) this.close(this.last.slice(), judged);
    const n = this.count;
    const { min, max } = this;
    const recording = {
      channels: this.channels,
      bucketCount: n,
      edges_s: this.edges.slice(0, n + 1).map((tick) => tick * this.tick_s),
      min: this.columns(min, n),
      max: this.columns(max, n),
    };
    spare = { min, max };
    return recording;
  }

  private columns(rows: Float32Array, buckets: number): Float32Array[] {
    const n = this.channels.length;
    return this.channels.map((_, c) => {
      const column = new Float32Array(buckets);
      for (let k = 0; k < buckets; k++) column[k] = rows[k * n + c]!;
      return column;
    });
  }

  readings(): Extreme[] {
    return this.channels.map((channel, c) => ({
      channel: channel.id,
      min: this.extremeMin[c]!,
      min_s: this.minTick[c]! * this.tick_s,
      max: this.extremeMax[c]!,
      max_s: this.maxTick[c]! * this.tick_s,
    }));
  }
}
