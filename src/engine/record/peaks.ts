/**
 * Where each kind of quantity was lowest and highest in what is judged, step by step: the moments that findings are
 * about. A kind is one of the catalogue (voltage of a node, current of a bar); totals stand each for itself.
 */
import type { Int } from '../../base/int.ts';
import type { Channel } from '../../channels/channel.ts';
import type { KeptLeaf, KeptLeaves } from './kept-leaves.ts';

/** Kept before a peak and after it [s]. */
const before_s = 1e-3;
const after_s = 2e-3;

/** Leaves kept of one peak at most. */
const mostLeaves = 16;

export class Peaks {
  private readonly kept: KeptLeaves;
  private readonly before: number;
  private readonly after: number;
  private readonly kinds: Int;
  /** Kind of each channel. */
  private readonly kindOf: Int32Array;
  /** Peaks, the lowest of every kind before the highest: value, when reached [tick], 1 while what follows it is to come. */
  private readonly value: Float64Array;
  private readonly tick: Float64Array;
  private readonly waits: Uint8Array;
  private readonly leaves: (readonly KeptLeaf[])[];

  constructor(kept: KeptLeaves, channels: readonly Channel[], tick_s: number) {
    this.kept = kept;
    this.before = before_s / tick_s;
    this.after = after_s / tick_s;
    const names = channels.map(({ kind, id }) => (kind === 'total' ? id : kind));
    const kinds = [...new Set(names)];
    const n = kinds.length;
    this.kinds = n;
    this.kindOf = Int32Array.from(names, (name) => kinds.indexOf(name));
    this.value = new Float64Array(2 * n).fill(Number.POSITIVE_INFINITY, 0, n);
    this.value.fill(Number.NEGATIVE_INFINITY, n);
    this.tick = new Float64Array(2 * n);
    this.waits = new Uint8Array(2 * n);
    this.leaves = Array.from(this.value, () => []);
  }

  /** A channel is lower than ever. */
  lower(channel: Int, value: number, tick: number): void {
    const peak: Int = this.kindOf[channel]!;
    if (value < this.value[peak]!) this.move(peak, value, tick);
  }

  /** A channel is higher than ever. */
  higher(channel: Int, value: number, tick: number): void {
    const peak: Int = this.kinds + this.kindOf[channel]!;
    if (value > this.value[peak]!) this.move(peak, value, tick);
  }

  private move(peak: Int, value: number, tick: number): void {
    this.value[peak] = value;
    this.tick[peak] = tick;
    this.waits[peak] = 1;
  }

  /** The run has come to `tick`: keeps what surrounds the peaks that lie behind, once that has been recorded. */
  come(tick: number): void {
    const { waits, after } = this;
    for (let peak = 0; peak < waits.length; peak++)
      if (waits[peak] === 1 && tick >= this.tick[peak]! + after) this.keep(peak);
  }

  private keep(peak: number): void {
    this.waits[peak] = 0;
    for (const leaf of this.leaves[peak]!) this.kept.release(leaf);
    const at = this.tick[peak]!;
    this.leaves[peak] = this.kept.claim(at - this.before, at + this.after, at, mostLeaves);
  }
}
