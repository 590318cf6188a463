/**
 * The whole run at the level of detail that fits: time cut into buckets, each channel's smallest, largest and mean value
 * in each, so that no spike is lost. Buckets are narrow where steps are fine and wide where nothing happens. When there
 * are too many, neighbours join and later ones take twice as many leaves: memory does not grow with time, and an hour is
 * as even as a second.
 */
import { Bucket } from './bucket.ts';
import { columnsOf } from './columns.ts';

/** Most buckets kept. */
export const mostBuckets = 8192;

/** Buckets that are read out together. */
const blockBuckets = 128;

type Room = Float32Array<ArrayBuffer>;

interface Rows {
  readonly min: Room;
  readonly max: Room;
  readonly mean: Room;
}

/** Buckets as they are read out: `edges` [tick], one more than there are buckets; columns by channel. */
export interface Buckets {
  readonly count: number;
  readonly edges: Float64Array;
  readonly min: readonly Float32Array[];
  readonly max: readonly Float32Array[];
  readonly mean: readonly Float32Array[];
}

/**
 * The rows of the run that read out last, for the next of the same size. They take 20 MB; made anew for each run of a
 * study they keep the garbage collector busy on every core.
 */
let spare: Rows | null = null;

/** A run whose buckets are of so many leaves, seconds of work, does not keep them: its own columns take their place. */
const longRunLeaves = 8;

function rowsOf(length: number): Rows {
  const rows = spare;
  spare = null;
  if (rows !== null && rows.min.length === length) return rows;
  return { min: new Float32Array(length), max: new Float32Array(length), mean: new Float32Array(length) };
}

export class Levels {
  private readonly channelCount: number;
  private readonly edges = new Float64Array(mostBuckets + 1);
  /** One row of all channels a bucket: what is written at once lies together. */
  private readonly rows: Rows;
  /** The open one, into which leaves go as they close. */
  readonly bucket: Bucket;
  private count = 0;
  private leavesPerBucket = 1;
  private wideEnough: number;

  /** `wideEnough`: a bucket as wide as this closes [tick]. */
  constructor(channelCount: number, wideEnough: number) {
    this.channelCount = channelCount;
    this.wideEnough = wideEnough;
    this.rows = rowsOf(channelCount * mostBuckets);
    this.bucket = new Bucket(channelCount);
  }

  start(tick: number): void {
    this.edges[0] = tick;
  }

  /** A leaf that ends at `tick` has gone into the open bucket, which is closed where it is due. */
  leafDone(tick: number): void {
    const isWide = tick - this.edges[this.count]! >= this.wideEnough;
    if (isWide || this.bucket.leafCount >= this.leavesPerBucket) this.close(tick);
  }

  /** Closes the open bucket, which ends at `tick`. */
  close(tick: number): void {
    const { channelCount, bucket } = this;
    if (bucket.leafCount === 0) return;
    const { low, high, integral } = bucket;
    const { min, max, mean } = this.rows;
    const row = this.count * channelCount;
    const width = tick - this.edges[this.count]!;
    for (let c = 0; c < channelCount; c++) {
      min[row + c] = low[c]!;
      max[row + c] = high[c]!;
      mean[row + c] = integral[c]! / width;
    }
    this.count++;
    this.edges[this.count] = tick;
    bucket.empty();
    if (this.count === mostBuckets) this.join();
  }

  /** Joins neighbours, and lets later buckets be twice as wide. */
  private join(): void {
    const half = mostBuckets / 2;
    const { channelCount: n, edges } = this;
    const { min, max, mean } = this.rows;
    for (let k = 0; k < half; k++) {
      const first_ticks = edges[2 * k + 1]! - edges[2 * k]!;
      const share = first_ticks / (edges[2 * k + 2]! - edges[2 * k]!);
      for (let c = 0; c < n; c++) {
        const first = 2 * k * n + c;
        min[k * n + c] = Math.min(min[first]!, min[first + n]!);
        max[k * n + c] = Math.max(max[first]!, max[first + n]!);
        mean[k * n + c] = mean[first + n]! + share * (mean[first]! - mean[first + n]!);
      }
    }
    for (let k = 0; k <= half; k++) edges[k] = edges[2 * k]!;
    this.count = half;
    this.wideEnough *= 2;
    this.leavesPerBucket *= 2;
  }

  /** What was kept, once; the rows go to the next run. */
  buckets(): Buckets {
    const { count, edges, rows } = this;
    const isLong = this.leavesPerBucket >= longRunLeaves;
    if (!isLong) spare = rows;
    const min = this.columns(rows.min);
    const max = this.columns(rows.max, isLong ? rows.min : undefined);
    const mean = this.columns(rows.mean, isLong ? rows.max : undefined);
    return { count, edges: edges.slice(0, count + 1), min, max, mean };
  }

  /** A block of buckets at a time, whose rows stay at hand while every channel takes its own of them; into `room` where it is given. */
  private columns(rows: Room, room?: Room): Float32Array[] {
    const { channelCount: n, count } = this;
    const columns = columnsOf(n, count, room);
    for (let from = 0; from < count; from += blockBuckets) {
      const to = Math.min(from + blockBuckets, count);
      for (let c = 0; c < n; c++) {
        const column = columns[c]!;
        for (let k = from; k < to; k++) column[k] = rows[k * n + c]!;
      }
    }
    return columns;
  }
}
