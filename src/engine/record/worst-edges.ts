/**
 * The worst edges of a run, step by step: those after which the voltages on the bus lie furthest apart. Edges close
 * together, as of sleds that are out of step, are one.
 */
import type { Int } from '../../base/int.ts';
import type { KeptLeaf, KeptLeaves } from './kept-leaves.ts';
import type { Leaves } from './leaves.ts';

/** Edges kept. */
export const mostEdges = 50;

/** Kept before an edge and after it [s]. */
const before_s = 1e-3;
const after_s = 10e-3;

/** An edge that is still going on after this is taken for two [s]. */
const longest_s = 40e-3;

/** Leaves kept of one edge at most. */
const mostLeaves = 64;

/** A closed edge: how far it has driven the voltages apart [V], and the leaves kept of it. */
interface Edge {
  readonly swing: number;
  readonly leaves: readonly KeptLeaf[];
}

export class WorstEdges {
  private readonly kept: KeptLeaves;
  private readonly nodeCount: Int;
  private readonly before: number;
  private readonly after: number;
  private readonly longest: number;
  private readonly edges: Edge[] = [];
  /** When the open edge began, Infinity where none is open, and when it last went on [tick]. */
  private readonly first: Float64Array;
  private last = 0;
  /** Lowest and highest voltage since it began [V]. */
  private readonly low: Float64Array;
  private readonly high: Float64Array;

  /** The channels begin with the voltages of so many nodes. */
  constructor(kept: KeptLeaves, nodeCount: number, tick_s: number) {
    this.kept = kept;
    this.nodeCount = nodeCount;
    this.before = before_s / tick_s;
    this.after = after_s / tick_s;
    this.longest = longest_s / tick_s;
    this.first = Float64Array.of(Number.POSITIVE_INFINITY);
    this.low = new Float64Array(1);
    this.high = new Float64Array(1);
  }

  private get isOpen(): boolean {
    return this.first[0] !== Number.POSITIVE_INFINITY;
  }

  /** The load jumps, or something happens. */
  edge(tick: number): void {
    const goesOn = tick <= this.last + this.after && tick - this.first[0]! < this.longest;
    if (!this.isOpen || !goesOn) {
      this.finish();
      this.first[0] = tick;
      this.low[0] = Number.POSITIVE_INFINITY;
      this.high[0] = Number.NEGATIVE_INFINITY;
    }
    this.last = tick;
  }

  /** Looks at the leaf last gathered, which ends at `tick`; `aside`: 1 for channels that do not count just now. */
  see(leaves: Leaves, tick: number, aside: Uint8Array): void {
    const { nodeCount, first } = this;
    if (tick <= first[0]!) return;
    const { low, high } = leaves;
    let lowest = this.low[0]!;
    let highest = this.high[0]!;
    for (let n = 0; n < nodeCount; n++) {
      if (aside[n] !== 0) continue;
      if (low[n]! < lowest) lowest = low[n]!;
      if (high[n]! > highest) highest = high[n]!;
    }
    this.low[0] = lowest;
    this.high[0] = highest;
  }

  /** The run has come to `tick`: what surrounds the open edge may have been recorded. */
  come(tick: number): void {
    if (this.isOpen && tick >= this.last + this.after) this.finish();
  }

  /** Keeps the open edge where it is among the worst. */
  finish(): void {
    const first = this.first[0]!;
    const swing = this.high[0]! - this.low[0]!;
    const isNone = !this.isOpen || this.high[0]! < this.low[0]!;
    this.first[0] = Number.POSITIVE_INFINITY;
    if (isNone) return;
    if (this.edges.length === mostEdges) {
      const mildest = this.mildest();
      if (this.edges[mildest]!.swing >= swing) return;
      for (const leaf of this.edges[mildest]!.leaves) this.kept.release(leaf);
      this.edges.splice(mildest, 1);
    }
    const leaves = this.kept.claim(first - this.before, this.last + this.after, first, mostLeaves);
    this.edges.push({ swing, leaves });
  }

  private mildest(): number {
    let mildest = 0;
    for (let k = 1; k < this.edges.length; k++)
      if (this.edges[k]!.swing < this.edges[mildest]!.swing) mildest = k;
    return mildest;
  }
}
