/**
 * Where the currents of units meet: the node that each flows into, and out of, as one list by node. A node's current is
 * summed in the order in which units are listed, so that it has the same bits however the list is walked. Units write their
 * own place of one column, so no sum waits for what the unit before has stored.
 */
import type { Int } from '../base/int.ts';

/** Units of one kind in their order: the node that each one's current flows into, and out of where it joins two. */
export interface Joined {
  readonly into: Int32Array;
  readonly from?: Int32Array;
}

export class Joints {
  /** Units whose currents meet. */
  readonly unitCount: Int;
  readonly nodeCount: Int;
  /** Places of the currents of node n: `place[start[n]]` up to `place[start[n + 1]]`; −1 − place of one that flows out. */
  readonly start: Int32Array;
  readonly place: Int32Array;

  constructor(nodeCount: number, kinds: readonly Joined[]) {
    const at: number[][] = Array.from({ length: nodeCount }, () => []);
    let unit = 0;
    for (const { into, from } of kinds) {
      into.forEach((node, k) => {
        if (from !== undefined) at[from[k]!]!.push(-1 - unit);
        at[node]!.push(unit);
        unit++;
      });
    }
    this.unitCount = unit;
    this.nodeCount = nodeCount;
    this.start = new Int32Array(nodeCount + 1);
    at.forEach((places, n) => {
      this.start[n + 1] = this.start[n]! + places.length;
    });
    this.place = Int32Array.from(at.flat());
  }

  /** Currents into the nodes [A]. */
  sum(into_A: Float64Array, current_A: Float64Array): void {
    const { nodeCount, start, place } = this;
    for (let n = 0; n < nodeCount; n++) {
      const end = start[n + 1]!;
      let sum = 0;
      for (let p = start[n]!; p < end; p++) {
        const unit = place[p]!;
        if (unit < 0) sum -= current_A[-1 - unit]!;
        else sum += current_A[unit]!;
      }
      into_A[n] = sum;
    }
  }
}
