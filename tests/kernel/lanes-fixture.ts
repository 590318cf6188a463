/** Loops that are taken in two lanes, with every turn that lanes know, and some whose turns hand on too much. */
import type { Int } from '../../src/base/int.ts';

const least = -3;
const branch = { rising: 0, falling: 1, still: 2 } as const;

interface Sizes {
  readonly gain: Float64Array;
  readonly span: Float64Array;
}

export class Row {
  readonly count: Int;
  readonly offset: Int;
  readonly node: Int32Array;
  readonly source: Int32Array;
  readonly branch: Uint8Array;
  readonly alive: Uint8Array;
  readonly sizes: Sizes;
  /** Two states of each unit, the first from `offset` on. */
  readonly x: Float64Array;
  readonly into: Float64Array;
  readonly sums: Float64Array;

  constructor(count: number) {
    const column = (of: (k: number) => number): Float64Array =>
      Float64Array.from({ length: count }, (_, k) => of(k));
    this.count = count;
    this.offset = 3;
    this.node = Int32Array.from({ length: count }, (_, k) => (k * 5) % 3);
    this.source = Int32Array.from({ length: count }, (_, k) => (k * 5 + 2) % 3);
    this.branch = Uint8Array.from({ length: count }, (_, k) => k % 3);
    this.alive = Uint8Array.from({ length: count }, (_, k) => (k % 4 === 1 ? 0 : 1));
    this.sizes = { gain: column((k) => 1 / (k + 3)), span: column((k) => 0.3 * k) };
    this.x = Float64Array.from({ length: 3 + 2 * count }, (_, k) => Math.sin(7 * k));
    this.into = new Float64Array(3);
    this.sums = new Float64Array(4);
  }

  /** Several results, the first that holds. */
  private held(k: Int, v: number): number {
    if (this.alive[k] === 0) return 0;
    const span = this.sizes.span[k]!;
    if (v > span) return span;
    let low = -span;
    if (v < low) low = low / 2;
    else low = v;
    return low;
  }

  /** Branches under masks, a switch, rounds within a turn. */
  move(v: Float64Array, q: number): void {
    const { count: n, offset: o, node, branch: branches, x } = this;
    const { gain } = this.sizes;
    for (let k = 0; k < n; k++) {
      const at = v[node[k]!]!;
      let rate: number;
      switch (branches[k]!) {
        case branch.rising:
          rate = q * at;
          break;
        case branch.falling:
          rate = -q * at;
          break;
        default:
          rate = 0;
      }
      let now = x[o + k]! + rate;
      for (let round = 0; round < 2; round++) {
        const off = now - gain[k]!;
        if (off > 0.2 || !(off > -0.2)) now = gain[k]! + off / 2;
      }
      if (now < least) now = least;
      const root = Math.sqrt(Math.abs(now));
      x[o + n + k]! -= root < at ? root : at;
      x[o + k] = this.held(k, now);
      const is: Int = now > gain[k]! ? branch.rising : now < 0 ? branch.falling : branch.still;
      branches[k] = is;
    }
  }

  /** What turns hand on: places that several share, a sum, the worst, a flag. */
  gather(): boolean {
    const { count: n, offset: o, node, x, into, sums } = this;
    let sum = 0;
    let worst = 0;
    let least = 1;
    let isWide = false;
    for (let k = 0; k < n; k++) {
      const value = x[o + k]! * 3;
      into[node[k]!]! += value;
      sum += value;
      worst = value > worst ? value : worst;
      least = value < least ? value : least;
      if (value > 0.5 && this.alive[k] === 1) isWide = true;
    }
    sums[0]! += sum;
    sums[1] = worst;
    sums[2] = least;
    return isWide;
  }

  /** Ends at the first that is beyond. */
  isBeyond(most: number): boolean {
    const { count, offset, x } = this;
    for (let k = 0; k < count; k++) if (x[offset + k]! > most) return true;
    return false;
  }

  /** Turns read where others add, as a solve does: no lanes. */
  sweep(): void {
    const { count, node, source, into } = this;
    for (let k = 0; k < count; k++) into[node[k]!]! -= this.sizes.gain[k]! * into[source[k]!]!;
  }

  /** Turns read their own place, which others may add to: no lanes. */
  spill(): void {
    const { count, node, sums } = this;
    for (let k = 0; k < count - 5; k++) sums[node[k]!]! += sums[k]! / 8;
  }

  /** Every turn reads what the last has written: no lanes. */
  chain(): void {
    const { count, sums } = this;
    for (let k = 0; k < count; k++) sums[3] = sums[3]! / 2 + this.sizes.gain[k]!;
  }
}

export function turn(row: Row, v: Float64Array, q: number): Int {
  row.move(v, q);
  row.sweep();
  row.spill();
  row.chain();
  return (row.gather() ? 2 : 0) + (row.isBeyond(0.1) ? 1 : 0);
}
