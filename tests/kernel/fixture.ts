/** A small kernel with every turn that the translator knows: taken as it stands and compiled, it must give the same bits. */

import { copy } from '../../src/base/copy.ts';
import type { Int } from '../../src/base/int.ts';

const half = 0.5;
const most: Int = 3;
const mode = { off: 0, on: 1 } as const;

/** A structure that is an interface; its names stay outside the memory. */
export interface Ratings {
  readonly names: readonly string[];
  readonly gain: Float64Array;
}

/** What every part does unless it says otherwise. */
abstract class Part {
  isFull(_most: number): boolean {
    return false;
  }

  grow(_by: number): void {}
}

class Tank extends Part {
  readonly level: Float64Array = Float64Array.of(0.1);

  override isFull(at: number): boolean {
    return this.level[0]! > at;
  }

  override grow(by: number): void {
    this.level[0]! += by / 3;
  }
}

class Counter extends Part {
  readonly turns: Int32Array = Int32Array.of(0);
  readonly tank: Tank;

  constructor(tank: Tank) {
    super();
    this.tank = tank;
  }

  override grow(by: number): void {
    const { tank, turns } = this;
    tank.grow(-by * half);
    turns[0]! += 1;
  }
}

class Wall extends Part {}

type Parts = readonly [Tank, Counter, Wall];

export class Units {
  readonly names: readonly string[];
  readonly scale: number;
  readonly count: Int;
  readonly place: Int32Array;
  readonly state: Uint8Array;
  readonly ratings: Ratings;
  readonly out: Float64Array;
  readonly past: Float64Array;
  readonly parts: Parts;

  constructor(names: readonly string[], scale: number) {
    this.names = names;
    this.scale = scale;
    this.count = names.length;
    this.place = Int32Array.from(names, (_, k) => names.length - 1 - k);
    this.state = Uint8Array.from(names, (_, k) => k % 2);
    this.ratings = { names, gain: Float64Array.from(names, (_, k) => 1 / (k + 3)) };
    this.out = new Float64Array(names.length);
    this.past = new Float64Array(names.length);
    const tank = new Tank();
    this.parts = [tank, new Counter(tank), new Wall()];
  }

  /** Asks parts of different kinds, in their order. */
  private fill(v: number): boolean {
    const { parts } = this;
    for (const part of parts) part.grow(v);
    for (const part of this.parts) if (part.isFull(most)) return true;
    return false;
  }

  private clamped(k: Int, v: number): number {
    const { gain } = this.ratings;
    if (v > most) return gain[k]!;
    switch (this.state[k]!) {
      case mode.off:
        return -v;
      default:
        return Math.sqrt(Math.abs(v)) / 3;
    }
  }

  /** Writes every unit's value, by place; how many stand above zero. */
  step(v: number): Int {
    const { count, place, state, out, past, scale: s } = this;
    copy(past, out, count);
    let above: Int = this.fill(v) ? 1 : 0;
    for (let k = 0; k < count; k++) {
      let sum = 0;
      let left: Int = most;
      while (left-- > 0) sum += this.clamped(k, v - left) * half;
      // Whole numbers divide like all numbers.
      out[place[k]!]! += s * sum + (k + 1) / count;
      if (out[place[k]!]! > 0) above++;
      state[k] = state[k] === mode.on && sum > 0 ? mode.off : mode.on;
    }
    return above;
  }
}

export function step(units: Units, v: number): Int {
  return units.step(v);
}
