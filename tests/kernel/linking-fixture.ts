/** A small kernel that is handed two structures, one of which stands in several places: linked, it must give the same bits. */
import type { Int } from '../../src/base/int.ts';

/** What all parts share. */
export class Inner {
  readonly count: Int;
  readonly from: Int32Array;
  readonly weight: Float64Array;

  constructor(count: number) {
    this.count = count;
    this.from = Int32Array.from({ length: count }, (_, k) => (k * 3) % count);
    this.weight = Float64Array.from({ length: count }, (_, k) => 1 / (3 + k));
  }

  /** Each place takes what the one before it holds; as far as the first that is off. */
  total(v: Float64Array, most: number): number {
    const { count, from, weight } = this;
    let sum = 0;
    for (let k: Int = 0; k < count; k++) {
      if (v[k]! > most) return sum;
      sum = sum * weight[k]! + v[from[k]!]!;
    }
    return sum;
  }
}

export class Home {
  readonly scale: number = 0.3;
  readonly inner: Inner;
  readonly v: Float64Array;

  constructor(count: number) {
    this.inner = new Inner(count);
    this.v = new Float64Array(count);
  }
}

export class Part {
  readonly inner: Inner;
  readonly own: Float64Array;
  readonly turns: Int32Array = Int32Array.of(0);

  constructor(inner: Inner) {
    this.inner = inner;
    this.own = Float64Array.from({ length: inner.count }, (_, k) => k - 1.5);
  }

  /** What is known of a column meets what is not, and sums wait while loops run. */
  turn(home: Home, q: number): number {
    const { own, turns } = this;
    const { v, inner } = home;
    let low: Int = 0;
    if (q > 0.5) low = inner.count > 2 ? 1 : 0;
    for (let k: Int = low; k < inner.count; k++) v[k]! += q * own[k]! * inner.weight[k]!;
    turns[0]! += low + 1;
    const worst = this.inner.total(v, 0.4);
    own[inner.count - 1]! -= q * inner.total(q > 0 ? own : v, 9) - home.scale * inner.total(v, worst);
    return worst + own[low]! * inner.total(own, 1) + turns[0]!;
  }
}

export function turn(home: Home, part: Part, q: number): number {
  return part.turn(home, q);
}
