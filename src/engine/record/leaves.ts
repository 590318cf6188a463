/**
 * The steps just taken, every channel at the end of each, in leaves of a few steps: the finest thing that is recorded.
 * Buckets of time are made of whole leaves; close-ups keep them as they are. The last leaves stay readable until their
 * room is needed again.
 */
import type { Int } from '../../base/int.ts';

/** Most steps in a leaf. */
const leafSteps: Int = 16;

/** Leaves that stay readable: more than the longest stretch around a moment. */
const mostLeaves: Int = 80;

/** Rows of a leaf: where it begins, then the end of each step. */
export const leafRows: Int = leafSteps + 1;

export class Leaves {
  readonly channelCount: Int;
  /** A leaf as wide as this is full whatever it holds [tick]. */
  private readonly widest: number;
  /** Row in which the open leaf begins, and the one into which the next step goes. */
  readonly next: Int32Array;
  /** Moment of each row [tick], and the values of all channels then: leaf after leaf, in a ring. */
  readonly ticks: Float64Array;
  readonly rows: Float64Array;
  /** Half the length of the step that ends at each row [tick]. */
  private readonly half: Float64Array;
  /** Of each channel in the open leaf, as last gathered: smallest and largest value, integral [unit·tick]. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly integral: Float64Array;
  /** Steps in each closed leaf of the ring, and how many leaves have been opened, one value. */
  private readonly steps: Int32Array;
  private readonly opened: Int32Array;

  /** `column`: room for the ring, by far the longest column of a run. */
  constructor(channelCount: number, widest: number, column: (length: number) => Float64Array) {
    this.channelCount = channelCount;
    this.widest = widest;
    this.next = Int32Array.of(0, 1);
    this.ticks = new Float64Array(mostLeaves * leafRows);
    this.rows = column(mostLeaves * leafRows * channelCount);
    this.half = new Float64Array(mostLeaves * leafRows);
    this.low = new Float64Array(channelCount);
    this.high = new Float64Array(channelCount);
    this.integral = new Float64Array(channelCount);
    this.steps = new Int32Array(mostLeaves);
    this.opened = Int32Array.of(1);
  }

  /** Adds a step that ends at `tick` with `values`. */
  add(tick: number, values: Float64Array): void {
    const { channelCount: n, ticks, rows, half } = this;
    const row: Int = this.next[1]!;
    const now: Int = row * n;
    this.next[1] = row + 1;
    ticks[row] = tick;
    half[row] = (tick - ticks[row - 1]!) / 2;
    for (let c = 0; c < n; c++) rows[now + c] = values[c]!;
  }

  /** The open leaf holds as many steps or as much time as a leaf may. */
  isFull(): boolean {
    const first: Int = this.next[0]!;
    const last: Int = this.next[1]! - 1;
    return last - first >= leafSteps || this.ticks[last]! - this.ticks[first]! >= this.widest;
  }

  /** Gathers what the open leaf holds of each channel, which is straight between the ends of a step. */
  gather(): void {
    const { channelCount: n, rows, half, low, high, integral } = this;
    const first: Int = this.next[0]!;
    const end: Int = this.next[1]!;
    for (let c = 0; c < n; c++) {
      let past = rows[first * n + c]!;
      let least = past;
      let most = past;
      let sum = 0;
      for (let row = first + 1; row < end; row++) {
        const value = rows[row * n + c]!;
        sum += half[row]! * (past + value);
        least = value < least ? value : least;
        most = value > most ? value : most;
        past = value;
      }
      low[c] = least;
      high[c] = most;
      integral[c] = sum;
    }
  }

  /** When a channel first had a value that it has in the open leaf [tick]. */
  firstAt(channel: Int, value: number): number {
    const { channelCount: n, ticks, rows } = this;
    let row: Int = this.next[0]!;
    while (rows[row * n + channel] !== value) row++;
    return ticks[row]!;
  }

  /** Steps in the open leaf. */
  get filled(): number {
    return this.next[1]! - this.next[0]! - 1;
  }

  /** Where the open leaf begins [tick]. */
  get from(): number {
    return this.ticks[this.next[0]!]!;
  }

  /** Begins the open leaf anew, at the end of the one before it, with the values that stand there now. */
  begin(tick: number, values: Float64Array): void {
    const row = this.next[0]!;
    this.rows.set(values, row * this.channelCount);
    this.ticks[row] = tick;
  }

  /** Closes the open leaf and begins the next one where it ends. */
  turn(): void {
    const { channelCount: n, next, ticks, rows, steps, opened } = this;
    const last: Int = next[1]! - 1;
    const leaf: Int = opened[0]!;
    steps[(leaf - 1) % mostLeaves] = last - next[0]!;
    const row: Int = (leaf % mostLeaves) * leafRows;
    const from: Int = last * n;
    const to: Int = row * n;
    for (let c = 0; c < n; c++) rows[to + c] = rows[from + c]!;
    ticks[row] = ticks[last]!;
    next[0] = row;
    next[1] = row + 1;
    opened[0] = leaf + 1;
  }

  /** Numbers of the closed leaves that are still readable and share time with a stretch, in time order. */
  within(from: number, to: number): readonly number[] {
    const opened = this.opened[0]!;
    const first = Math.max(0, opened - mostLeaves);
    const found: number[] = [];
    for (let leaf = first; leaf < opened - 1; leaf++) {
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

  /** Copies the moments and rows of a closed leaf, as far as it is filled. */
  copy(leaf: number, ticks: Float64Array, rows: Float32Array): void {
    const place = leaf % mostLeaves;
    const row = place * leafRows;
    const end = row + this.steps[place]! + 1;
    const n = this.channelCount;
    ticks.set(this.ticks.subarray(row, end));
    rows.set(this.rows.subarray(row * n, end * n));
  }
}
