/**
 * Leaves that moments lay claim to: kept in binary32 as long as one does. Their rows are used again and again, so that a
 * run makes no more of them than it holds at once.
 */
import { type Leaves, leafRows } from './leaves.ts';

/** Leaves whose room is made at once. */
const blockLeaves = 32;

/** A leaf as it is kept: one row of all channels at its beginning and after each of its steps. */
export interface KeptLeaf {
  /** Its number in the run. */
  leaf: number;
  steps: number;
  readonly ticks: Float64Array;
  readonly rows: Float32Array;
  /** Moments that lay claim to it. */
  claims: number;
}

export class KeptLeaves {
  private readonly leaves: Leaves;
  private readonly kept = new Map<number, KeptLeaf>();
  private free: KeptLeaf[] = [];

  constructor(leaves: Leaves) {
    this.leaves = leaves;
  }

  /**
   * Lays claim to the leaves between two ticks that are still readable: at most `most` of them, a quarter of those before
   * the leaf that holds `at`.
   */
  claim(from: number, to: number, at: number, most: number): readonly KeptLeaf[] {
    const inside = this.leaves.within(from, to);
    const centre = inside.findIndex((leaf) => this.leaves.stretchOf(leaf).ends >= at);
    const first = inside.length <= most ? 0 : Math.max(0, centre - most / 4);
    return inside.slice(first, first + most).map((leaf) => this.keep(leaf));
  }

  private keep(leaf: number): KeptLeaf {
    const kept = this.kept.get(leaf) ?? this.copyOf(leaf);
    kept.claims++;
    return kept;
  }

  private copyOf(leaf: number): KeptLeaf {
    if (this.free.length === 0) this.free = this.block();
    const kept = this.free.pop()!;
    kept.leaf = leaf;
    kept.steps = this.leaves.stretchOf(leaf).steps;
    this.leaves.copy(leaf, kept.ticks, kept.rows);
    this.kept.set(leaf, kept);
    return kept;
  }

  /** Room for some more leaves. */
  private block(): KeptLeaf[] {
    const ticks = new Float64Array(blockLeaves * leafRows);
    const size = leafRows * this.leaves.channelCount;
    const rows = new Float32Array(blockLeaves * size);
    return Array.from({ length: blockLeaves }, (_, k) => ({
      leaf: 0,
      steps: 0,
      ticks: ticks.subarray(k * leafRows, (k + 1) * leafRows),
      rows: rows.subarray(k * size, (k + 1) * size),
      claims: 0,
    }));
  }

  /** Gives up a claim. */
  release(kept: KeptLeaf): void {
    kept.claims--;
    if (kept.claims > 0) return;
    this.kept.delete(kept.leaf);
    this.free.push(kept);
  }

  /** Every leaf that a moment lays claim to, in time order. */
  all(): readonly KeptLeaf[] {
    return [...this.kept.values()].sort((a, b) => a.leaf - b.leaf);
  }
}
