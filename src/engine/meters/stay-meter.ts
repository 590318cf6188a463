/**
 * Stays of node voltages beyond levels: for every node and level the longest single stay below and above, when
 * it began, and how many there were. A node is watched against the two levels next to it; only a crossing
 * costs more. The node of a sled that is not there is not watched. Crossing times are taken on the straight line through the ends of the step.
 */
import type { Int } from '../../base/int.ts';
import type { Stays, StayTable } from '../result.ts';

function table(size: number): StayTable {
  return {
    below_s: new Float64Array(size),
    belowAt_s: new Float64Array(size),
    belowCount: new Uint32Array(size),
    belowFirst_s: new Float64Array(size),
    belowLast_s: new Float64Array(size),
    above_s: new Float64Array(size),
    aboveAt_s: new Float64Array(size),
    aboveCount: new Uint32Array(size),
    aboveFirst_s: new Float64Array(size),
    aboveLast_s: new Float64Array(size),
  };
}

export class StayMeter {
  private readonly nodes: readonly string[];
  private readonly nodeCount: Int;
  private readonly levels: Float64Array;
  private readonly tick_s: number;
  private readonly normal: StayTable;
  private readonly carry: StayTable;
  private now: StayTable;
  private readonly place: Int32Array;
  /** Levels next to each node, below and above. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** When each node last went below (above) each level [tick]; valid while it is there. */
  private readonly belowSince: Float64Array;
  private readonly aboveSince: Float64Array;
  private readonly absent: Uint8Array;
  /** When the window began [tick]. */
  private begin = Number.NaN;
  private carryTicks = 0;
  private carrying = false;

  constructor(nodes: readonly string[], levels_V: Float64Array, tick_s: number) {
    this.nodes = nodes;
    this.nodeCount = nodes.length;
    this.levels = levels_V;
    this.tick_s = tick_s;
    const size = nodes.length * levels_V.length;
    this.normal = table(size);
    this.carry = table(size);
    this.now = this.normal;
    this.place = new Int32Array(nodes.length);
    this.low = new Float64Array(nodes.length);
    this.high = new Float64Array(nodes.length);
    this.absent = new Uint8Array(nodes.length);
    this.belowSince = new Float64Array(size);
    this.aboveSince = new Float64Array(size);
  }

  /** Begins at `tick` with every node where it is. */
  start(tick: number, v: Float64Array): void {
    this.begin = tick;
    for (let n = 0; n < this.place.length; n++) this.join(n, tick, v[n]!);
  }

  /** Node n is watched from `tick` on, where it stands at v. */
  join(n: number, tick: number, v: number): void {
    const L = this.levels.length;
    let p = 0;
    while (p < L && this.levels[p]! <= v) p++;
    this.absent[n] = 0;
    this.settle(n, p);
    for (let l = 0; l < L; l++) {
      if (l < p) this.aboveSince[n * L + l] = tick;
      else this.belowSince[n * L + l] = tick;
    }
  }

  /** Node n is no longer watched: its stays end at `tick`. */
  leave(n: number, tick: number): void {
    if (this.absent[n]) return;
    this.end(n, tick);
    this.absent[n] = 1;
    this.low[n] = Number.NEGATIVE_INFINITY;
    this.high[n] = Number.POSITIVE_INFINITY;
  }

  /** Node n stands between levels p − 1 and p. */
  private settle(n: number, p: number): void {
    this.place[n] = p;
    this.low[n] = p > 0 ? this.levels[p - 1]! : Number.NEGATIVE_INFINITY;
    this.high[n] = p < this.levels.length ? this.levels[p]! : Number.POSITIVE_INFINITY;
  }

  /** Does a node stand beyond the levels next to it at v? Then `take` has something to do. */
  isCrossed(v: Float64Array): boolean {
    const { nodeCount, low, high } = this;
    for (let n = 0; n < nodeCount; n++) if (v[n]! < low[n]! || v[n]! >= high[n]!) return true;
    return false;
  }

  take(tick0: number, v0: Float64Array, tick1: number, v1: Float64Array): void {
    const { low, high } = this;
    for (let n = 0; n < v1.length; n++) {
      const v = v1[n]!;
      if (v < low[n]!) this.sink(n, tick0, v0[n]!, tick1, v);
      else if (v >= high[n]!) this.rise(n, tick0, v0[n]!, tick1, v);
    }
  }

  /** Counts time spent carrying [ticks]. */
  count(ticks: number): void {
    if (this.carrying) this.carryTicks += ticks;
  }

  private sink(n: number, tick0: number, a: number, tick1: number, b: number): void {
    const L = this.levels.length;
    let p = this.place[n]!;
    while (p > 0 && b < this.levels[p - 1]!) {
      p--;
      const entry = n * L + p;
      const tick = tick0 + ((tick1 - tick0) * (a - this.levels[p]!)) / (a - b);
      this.endAbove(entry, tick);
      this.belowSince[entry] = tick;
    }
    this.settle(n, p);
  }

  private rise(n: number, tick0: number, a: number, tick1: number, b: number): void {
    const L = this.levels.length;
    let p = this.place[n]!;
    while (p < L && b >= this.levels[p]!) {
      const entry = n * L + p;
      const tick = tick0 + ((tick1 - tick0) * (this.levels[p]! - a)) / (b - a);
      this.endBelow(entry, tick);
      this.aboveSince[entry] = tick;
      p++;
    }
    this.settle(n, p);
  }

  private endBelow(entry: number, tick: number): void {
    const { now } = this;
    const stay = (tick - this.belowSince[entry]!) * this.tick_s;
    now.belowCount[entry]!++;
    if (this.belowSince[entry] === this.begin) now.belowFirst_s[entry] = stay;
    if (stay <= now.below_s[entry]!) return;
    now.below_s[entry] = stay;
    now.belowAt_s[entry] = this.belowSince[entry]! * this.tick_s;
  }

  private endAbove(entry: number, tick: number): void {
    const { now } = this;
    const stay = (tick - this.aboveSince[entry]!) * this.tick_s;
    now.aboveCount[entry]!++;
    if (this.aboveSince[entry] === this.begin) now.aboveFirst_s[entry] = stay;
    if (stay <= now.above_s[entry]!) return;
    now.above_s[entry] = stay;
    now.aboveAt_s[entry] = this.aboveSince[entry]! * this.tick_s;
  }

  /** Ends every running stay at `tick` and begins anew, in the other column when batteries begin or end to carry. */
  turn(tick: number, carrying: boolean): void {
    if (carrying === this.carrying) return;
    this.endAll(tick);
    this.carrying = carrying;
    this.now = carrying ? this.carry : this.normal;
  }

  private endAll(tick: number): void {
    for (let n = 0; n < this.place.length; n++) if (!this.absent[n]) this.end(n, tick);
  }

  /** Ends the running stays of node n and begins anew. */
  private end(n: number, tick: number): void {
    const L = this.levels.length;
    for (let l = 0; l < L; l++) {
      const entry = n * L + l;
      if (l < this.place[n]!) {
        this.endAbove(entry, tick);
        this.aboveSince[entry] = tick;
      } else {
        this.endBelow(entry, tick);
        this.belowSince[entry] = tick;
      }
    }
  }

  /** Every stay that runs at `tick`, when the window ends. */
  private keepLast(tick: number): void {
    const L = this.levels.length;
    const { belowLast_s, aboveLast_s } = this.now;
    for (let n = 0; n < this.place.length; n++) {
      if (this.absent[n]) continue;
      for (let entry = n * L; entry < (n + 1) * L; entry++) {
        if (entry - n * L < this.place[n]!)
          aboveLast_s[entry] = (tick - this.aboveSince[entry]!) * this.tick_s;
        else belowLast_s[entry] = (tick - this.belowSince[entry]!) * this.tick_s;
      }
    }
  }

  reading(tick: number): Stays {
    this.keepLast(tick);
    this.endAll(tick);
    return {
      nodes: this.nodes,
      levels_V: this.levels,
      normal: this.normal,
      carry: this.carry,
      carry_s: this.carryTicks * this.tick_s,
    };
  }
}
