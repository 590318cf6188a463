/**
 * The worst edges of a run, step by step: those after which the voltages on the bus lie furthest apart. Edges close
 * together, as of sleds that are out of step, are one.
 */
import type { KeptLeaf, KeptLeaves } from './kept-leaves.ts';
import type { Leaves } from './leaves.ts';

/** Edges kept. */
export const mostEdges = 50;

/** Kept before an edge and after it [s]. */
const before_s = 1e-3;
const after_s = 15e-3;

/** An edge that is still going on after this is taken for two [s]. */
const longest_s = 40e-3;

/** Leaves kept of one edge at most. */
const mostLeaves = 64;

interface Edge {
  readonly first: number;
  last: number;
  low: number;
  high: number;
  leaves: readonly KeptLeaf[];
}

export class WorstEdges {
  private readonly kept: KeptLeaves;
  private readonly nodeCount: number;
  private readonly before: number;
  private readonly after: number;
  private readonly longest: number;
  private readonly edges: Edge[] = [];
  private open: Edge | null = null;

  /** The channels begin with the voltages of so many nodes. */
  constructor(kept: KeptLeaves, nodeCount: number, tick_s: number) {
    this.kept = kept;
    this.nodeCount = nodeCount;
    this.before = before_s / tick_s;
    this.after = after_s / tick_s;
    this.longest = longest_s / tick_s;
  }

  /** The load jumps, or something happens. */
  edge(tick: number): void {
    const { open } = this;
    if (open !== null && tick <= open.last + this.after && tick - open.first < this.longest) {
      open.last = tick;
      return;
    }
    this.finish();
    this.open = {
      first: tick,
      last: tick,
      low: Number.POSITIVE_INFINITY,
      high: Number.NEGATIVE_INFINITY,
      leaves: [],
    };
  }

  /** Looks at the open leaf, which ends at `tick`; `aside`: 1 for channels that do not count just now. */
  see(leaves: Leaves, tick: number, aside: Uint8Array): void {
    const { open } = this;
    if (open === null || tick <= open.first) return;
    for (let n = 0; n < this.nodeCount; n++) {
      if (aside[n]) continue;
      if (leaves.low[n]! < open.low) open.low = leaves.low[n]!;
      if (leaves.high[n]! > open.high) open.high = leaves.high[n]!;
    }
  }

  /** The run has come to `tick`: what surrounds the open edge may have been recorded. */
  come(tick: number): void {
    if (this.open !== null && tick >= this.open.last + this.after) this.finish();
  }

  /** Keeps the open edge where it is among the worst. */
  finish(): void {
    const edge = this.open;
    this.open = null;
    if (edge === null || edge.high < edge.low) return;
    if (this.edges.length === mostEdges) {
      const mildest = this.mildest();
      if (swing(this.edges[mildest]!) >= swing(edge)) return;
      for (const leaf of this.edges[mildest]!.leaves) this.kept.release(leaf);
      this.edges.splice(mildest, 1);
    }
    const { first, last } = edge;
    edge.leaves = this.kept.claim(first - this.before, last + this.after, first, mostLeaves);
    this.edges.push(edge);
  }

  private mildest(): number {
    let mildest = 0;
    for (let k = 1; k < this.edges.length; k++)
      if (swing(this.edges[k]!) < swing(this.edges[mildest]!)) mildest = k;
    return mildest;
  }
}

/** How far the voltages lie apart. */
function swing({ low, high }: Edge): number {
  return high - low;
}
