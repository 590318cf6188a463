/** Steps on 64-bit floats that note how large and how small the numbers of each place become. */
import type { Steps } from './steps.ts';

export class RangeSteps implements Steps<number> {
  /** Largest amount of each place; 0 where it held nothing but zeros or was never reached. */
  readonly most: Float64Array;
  /** Smallest amount beside 0. */
  readonly least: Float64Array;

  constructor(slots: number) {
    this.most = new Float64Array(slots);
    this.least = new Float64Array(slots).fill(Infinity);
  }

  /** What is infinite is beyond every format, and what is no number has none. */
  private readonly note = (x: number, slot: number): number => {
    const amount = Math.abs(x);
    if (amount > this.most[slot]! && amount < Infinity) this.most[slot] = amount;
    if (amount > 0 && amount < this.least[slot]!) this.least[slot] = amount;
    return x;
  };

  readonly read = this.note;
  readonly moved = this.note;
  whole(n: number): number {
    return this.note(n, 0);
  }
  sumOf(a: number, b: number, into: number): number {
    return this.note(a + b, into);
  }
  differenceOf(a: number, b: number, into: number): number {
    return this.note(a - b, into);
  }
  productOf(a: number, b: number, into: number): number {
    return this.note(a * b, into);
  }
  quotientOf(a: number, b: number, into: number): number {
    return this.note(a / b, into);
  }
  nearestWhole(a: number, into: number): number {
    return this.note(Math.round(a), into);
  }
  negative(a: number): number {
    return -a;
  }
  orderOf(a: number, b: number): number {
    return Math.sign(a - b);
  }
}
