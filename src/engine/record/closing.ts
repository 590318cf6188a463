/**
 * What becomes of a leaf that closes: its channels are gathered, and go into the extremes and their peaks, the swing of
 * the open edge and the open bucket. The kernel does it with the step that fills the leaf.
 */
import type { Int } from '../../base/int.ts';
import type { Bucket } from './bucket.ts';
import type { Extremes } from './extremes.ts';
import type { Leaves } from './leaves.ts';
import type { Peaks } from './peaks.ts';
import type { WorstEdges } from './worst-edges.ts';

/** What a leaf goes into. */
export interface LeafTakers {
  readonly extremes: Extremes;
  readonly peaks: Peaks;
  readonly edges: WorstEdges;
  readonly bucket: Bucket;
}

export class Closing {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly leaves: Leaves;
  /** 1 for channels that just now do not count for the extremes. */
  readonly aside: Uint8Array;
  readonly takers: LeafTakers;

  constructor(leaves: Leaves, takers: LeafTakers) {
    this.leaves = leaves;
    this.aside = new Uint8Array(leaves.channelCount);
    this.takers = takers;
  }

  /** Adds a step that ends at `tick` with `values`. True: it has filled the open leaf, and the next one is open. */
  add(tick: number, values: Float64Array, judged: boolean): boolean {
    this.leaves.add(tick, values);
    if (!this.leaves.isFull()) return false;
    this.close(judged);
    return true;
  }

  /** Closes the open leaf and opens the next one; `judged`: it counts for the extremes. */
  close(judged: boolean): void {
    const { leaves, aside } = this;
    const { extremes, peaks, edges, bucket } = this.takers;
    const last: Int = leaves.next[1]! - 1;
    leaves.gather();
    if (judged) extremes.take(leaves, aside, peaks);
    edges.see(leaves, leaves.ticks[last]!, aside);
    bucket.take(leaves);
    leaves.turn();
  }
}
