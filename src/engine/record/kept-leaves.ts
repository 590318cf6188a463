/**
 * Leaves that may be wanted later: the last ones wait in a queue, those that a moment lays claim to are kept as long as
 * it does. Their rows are used again and again, so that a run makes no more of them than it keeps at once.
 */
import { type Leaf, leafSteps } from './leaf.ts';

/** Leaves that wait: more than the longest stretch around a moment. */
const mostWaiting = 96;

/** A leaf as it is kept: binary32, one row of all channels at its beginning and after each of its steps. */
export interface KeptLeaf {
  from: number;
  to: number;
  steps: number;
  readonly ticks: Float64Array;
  readonly rows: Float32Array;
  /** Moments that lay claim to it, and one more while it waits. */
  claims: number;
}

export class KeptLeaves {
  private readonly channelCount: number;
  private readonly waiting: KeptLeaf[] = [];
  private readonly free: KeptLeaf[] = [];

  constructor(channelCount: number) {
    this.channelCount = channelCount;
  }

  take(leaf: Leaf): void {
    if (this.waiting.length === mostWaiting) this.release(this.waiting.shift()!);
    const steps = leaf.filled[0]!;
    const kept = this.free.pop() ?? this.make();
    kept.from = leaf.ticks[0]!;
    kept.to = leaf.ticks[steps]!;
    kept.steps = steps;
    kept.claims = 1;
    kept.ticks.set(leaf.ticks);
    kept.rows.set(leaf.rows);
    this.waiting.push(kept);
  }

  private make(): KeptLeaf {
    return {
      from: 0,
      to: 0,
      steps: 0,
      ticks: new Float64Array(leafSteps + 1),
      rows: new Float32Array((leafSteps + 1) * this.channelCount),
      claims: 0,
    };
  }

  /**
   * Lays claim to the waiting leaves between two ticks: at most `most` of them, a quarter of those before the leaf that
   * holds `at`.
   */
  claim(from: number, to: number, at: number, most: number): readonly KeptLeaf[] {
    const inside = this.waiting.filter((leaf) => leaf.to > from && leaf.from < to);
    const centre = inside.findIndex((leaf) => leaf.to >= at);
    const first = inside.length <= most ? 0 : Math.max(0, centre - most / 4);
    const claimed = inside.slice(first, first + most);
    for (const leaf of claimed) leaf.claims++;
    return claimed;
  }

  /** Gives up a claim. */
  release(leaf: KeptLeaf): void {
    leaf.claims--;
    if (leaf.claims === 0) this.free.push(leaf);
  }
}
