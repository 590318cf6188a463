/**
 * The steps just taken, every channel at the end of each, in leaves of a few steps: the finest thing that is recorded.
 * Buckets of time are made of whole leaves; close-ups keep them as they are. The last leaves stay readable until their
 * room is needed again.
 */
import type { Int } from '../../base/int.ts';

/** Most steps in a leaf. */
export const leafSteps = 16;

/** Leaves that stay readable: more than the longest stretch around a moment. */
export const mostLeaves = 80;

/** Rows of a leaf: where it begins, then the end of each step. */
export const leafRows = leafSteps + 1;

export class Leaves {
  readonly channelCount: Int;
  /** Row into which the next step goes, one value. */
  readonly next: Int32Array;
  /** Moment of each row [tick], and the values of all channels then: leaf after leaf, in a ring. */
  readonly ticks: Float64Array;
  readonly rows: Float64Array;
  /** Of each channel in the open leaf: smallest and largest value, when first reached [tick], integral [unit·tick]. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly lowTick: Float64Array;
  readonly highTick: Float64Array;
  readonly integral: Float64Array;
  /** Steps in each leaf of the ring. */
  private readonly steps = new Int32Array(mostLeaves);
  private open = 0;
  private opened = 1;

  constructor(channelCount: number) {
    this.channelCount = channelCount;
    this.next = new Int32Array(1);
    this.ticks = new Float64Array(mostLeaves * leafRows);
    this.rows = new Float64Array(mostLeaves * leafRows * channelCount);
    this.low = new Float64Array(channelCount);
    this.high = new Float64Array(channelCount);
    this.lowTick = new Float64Array(channelCount);
    this.highTick = new Float64Array(channelCount);
    this.integral = new Float64Array(channelCount);
  }

  /** Adds a step that ends at `tick` with `values`; each channel is straight between its ends. */
  add(tick: number, values: Float64Array): void {
    const { channelCount: n, ticks, rows, low, high, lowTick, highTick, integral } = this;
    const row: Int = this.next[0]!;
    const past: Int = (row - 1) * n;
    const now: Int = row * n;
    const half = (tick - ticks[row - 1]!) / 2;
    this.next[0] = row + 1;
    ticks[row] = tick;
    for (let c = 0; c < n; c++) {
      const value = values[c]!;
      integral[c]! += half * (rows[past + c]! + value);
      rows[now + c] = value;
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

  /** Steps in the open leaf. */
  get filled(): number {
    return this.next[0]! - this.open * leafRows - 1;
  }

  /** Where the open leaf begins, and where its last step ends [tick]. */
  get from(): number {
    return this.ticks[this.open * leafRows]!;
  }

  get to(): number {
    return this.ticks[this.next[0]! - 1]!;
  }

  /** Begins the open leaf at `tick` with the values that stand there. */
  begin(tick: number, values: Float64Array): void {
    this.rows.set(values, this.open * leafRows * this.channelCount);
    this.beginAt(tick);
  }

  /** Closes the open leaf and begins the next one where it ends. */
  turn(): void {
    const { to, rows, channelCount: n } = this;
    const last = (this.next[0]! - 1) * n;
    this.steps[this.open] = this.filled;
    this.open = (this.open + 1) % mostLeaves;
    this.opened++;
    rows.copyWithin(this.open * leafRows * n, last, last + n);
    this.beginAt(to);
  }

  /** Begins the open leaf at `tick` with its first row as it stands. */
  private beginAt(tick: number): void {
    const { channelCount: n, rows, low, high, lowTick, highTick, integral } = this;
    const row = this.open * leafRows;
    this.next[0] = row + 1;
    this.ticks[row] = tick;
    for (let c = 0; c < n; c++) {
      low[c] = rows[row * n + c]!;
      high[c] = rows[row * n + c]!;
    }
    lowTick.fill(tick);
    highTick.fill(tick);
    integral.fill(0);
  }

  /** Numbers of the closed leaves that are still readable and share time with a stretch, in time order. */
  within(from: number, to: number): readonly number[] {
    const first = Math.max(0, this.opened - mostLeaves);
    const found: number[] = [];
    for (let leaf = first; leaf < this.opened - 1; leaf++) {
      const { begins, ends } = this.stretchOf(leaf);
      if (ends > from && begins < to) found.push(leaf);
    }
    return found;
  }

  /** When a closed leaf begins and ends [tick], and how many steps it has. */
  stretchOf(leaf: number): { readonly begins: number; readonly ends: number; readonly steps: number } {
    const place = leaf % mostLeaves;
    const steps = this.steps[place]!;
    return { begins: this.ticks[place * leafRows]!, ends: this.ticks[place * leafRows + steps]!, steps };
  }

  /** Copies the moments and rows of a closed leaf. */
  copy(leaf: number, ticks: Float64Array, rows: Float32Array): void {
    const row = (leaf % mostLeaves) * leafRows;
    const n = this.channelCount;
    ticks.set(this.ticks.subarray(row, row + leafRows));
    rows.set(this.rows.subarray(row * n, (row + leafRows) * n));
  }
}
