/**
 * Where each kind of quantity was lowest and highest in what is judged, step by step: the moments that findings are
 * about. A kind is one of the catalogue (voltage of a node, current of a bar); totals stand each for itself.
 */
import type { Channel } from '../../channels/channel.ts';
import type { KeptLeaf, KeptLeaves } from './kept-leaves.ts';

/** Kept before a peak and after it [s]. */
const before_s = 1e-3;
const after_s = 2e-3;

/** Leaves kept of one peak at most. */
const mostLeaves = 16;

interface Peak {
  value: number;
  tick: number;
  /** The leaves after it are still to come. */
  waits: boolean;
  leaves: readonly KeptLeaf[];
}

export class Peaks {
  private readonly kept: KeptLeaves;
  private readonly before: number;
  private readonly after: number;
  /** Place among the peaks of each channel's kind. */
  private readonly kindOf: Int32Array;
  private readonly lowest: readonly Peak[];
  private readonly highest: readonly Peak[];

  constructor(kept: KeptLeaves, channels: readonly Channel[], tick_s: number) {
    this.kept = kept;
    this.before = before_s / tick_s;
    this.after = after_s / tick_s;
    const names = channels.map(({ kind, id }) => (kind === 'total' ? id : kind));
    const kinds = [...new Set(names)];
    this.kindOf = Int32Array.from(names, (name) => kinds.indexOf(name));
    this.lowest = kinds.map(() => none(Number.POSITIVE_INFINITY));
    this.highest = kinds.map(() => none(Number.NEGATIVE_INFINITY));
  }

  /** A channel is lower than ever. */
  lower(channel: number, value: number, tick: number): void {
    const peak = this.lowest[this.kindOf[channel]!]!;
    if (value < peak.value) move(peak, value, tick);
  }

  /** A channel is higher than ever. */
  higher(channel: number, value: number, tick: number): void {
    const peak = this.highest[this.kindOf[channel]!]!;
    if (value > peak.value) move(peak, value, tick);
  }

  /** The run has come to `tick`: keeps what surrounds the peaks that lie behind. */
  come(tick: number): void {
    for (const peak of this.lowest) this.keep(peak, tick);
    for (const peak of this.highest) this.keep(peak, tick);
  }

  /** Keeps what surrounds a peak, once that has been recorded. */
  private keep(peak: Peak, tick: number): void {
    if (!peak.waits || tick < peak.tick + this.after) return;
    peak.waits = false;
    for (const leaf of peak.leaves) this.kept.release(leaf);
    peak.leaves = this.kept.claim(peak.tick - this.before, peak.tick + this.after, peak.tick, mostLeaves);
  }
}

function none(value: number): Peak {
  return { value, tick: 0, waits: false, leaves: [] };
}

function move(peak: Peak, value: number, tick: number): void {
  peak.value = value;
  peak.tick = tick;
  peak.waits = true;
}
