/**
 * Steps that bound how far fixed point comes from 64-bit floats: running error analysis, first order in what a law remembers.
 *
 * A number is the one of the run, a bound on what this run of the law has added to its error, and how it moves with each number
 * that the law remembered (so that a filter is seen to forget). A word that is only read or moved is known exactly.
 *
 *   a ± b   e_a + e_b + h                 a b   |a| e_b + |b| e_a + Δ_a Δ_b + h
 *   a/b     (e_a + |a/b| e_b)/|b| + what is of second order + h           h   half a count of the result
 *
 * A comparison closer than both errors may go either way: it counts as open, and `flip` has the law go the other way there.
 *
 * Source: J. H. Wilkinson, Rounding Errors in Algebraic Processes, HMSO 1963, ch. 1 (running bounds); from memory.
 */
import { type Format, wordBits } from './formats.ts';
import type { Steps } from './steps.ts';
import { asWord } from './word.ts';

type Slopes = readonly (readonly [remembered: number, slope: number])[];

export interface Bounded {
  readonly x: number;
  /** What its word stands for, where that is known. */
  readonly known: number | null;
  readonly e: number;
  readonly slopes: Slopes;
  readonly fraction: number;
}

const none: Slopes = [];

export class ErrorSteps implements Steps<Bounded> {
  /** Comparisons of this run that may go the other way. */
  open = 0;
  /** The one that does; −1 for none. */
  flip = -1;
  /** Bounds of what the law remembers. */
  remembered: Float64Array = new Float64Array(0);
  private readonly formats: readonly Format[];

  constructor(formats: readonly Format[]) {
    this.formats = formats;
  }

  /** How far a number's word may be from it. */
  total({ x, known, e, slopes }: Bounded): number {
    if (known !== null) return known === x ? 0 : Math.abs(known - x);
    let sum = e;
    for (const [j, slope] of slopes) sum += Math.abs(slope) * this.remembered[j]!;
    return sum;
  }

  read(stored: number | Bounded, at: number): Bounded {
    return typeof stored === 'number' ? this.word(stored, stored, at) : stored;
  }

  whole(n: number): Bounded {
    return { x: n, known: n, e: 0, slopes: none, fraction: 0 };
  }

  sumOf(a: Bounded, b: Bounded, into: number): Bounded {
    return this.added(a, b, 1, into);
  }

  differenceOf(a: Bounded, b: Bounded, into: number): Bounded {
    return this.added(a, b, -1, into);
  }

  private added(a: Bounded, b: Bounded, sign: number, into: number): Bounded {
    const isRounded = this.formats[into]!.fraction < Math.max(a.fraction, b.fraction);
    const slopes = joined(a.slopes, 1, b.slopes, sign);
    // The finer of two that lie further apart than a word is long is rounded before.
    const apart = Math.abs(a.fraction - b.fraction) > wordBits;
    const before = apart ? 2 ** -(Math.min(a.fraction, b.fraction) + wordBits + 1) : 0;
    return this.made(a.x + sign * b.x, a.e + b.e + before + (isRounded ? this.half(into) : 0), slopes, into);
  }

  productOf(a: Bounded, b: Bounded, into: number): Bounded {
    const e = Math.abs(a.x) * b.e + Math.abs(b.x) * a.e + this.total(a) * this.total(b);
    return this.made(a.x * b.x, e + this.half(into), joined(a.slopes, b.x, b.slopes, a.x), into);
  }

  quotientOf(a: Bounded, b: Bounded, into: number): Bounded {
    const x = a.x / b.x;
    // One and the same word over itself.
    if (a.known !== null && a.known === b.known && a.x === b.x && b.x !== 0) return this.word(1, 1, into);
    const divisor = Math.abs(b.x);
    const [far_a, far_b] = [this.total(a), this.total(b)];
    if (far_b >= divisor) return this.made(x, Infinity, none, into);
    const first = (a.e + Math.abs(x) * b.e) / divisor;
    const second = ((far_a + Math.abs(x) * far_b) * far_b) / (divisor * (divisor - far_b));
    // A dividend is moved up by a word's bits at most: the quotient is rounded where that brings it, then to its format.
    const { fraction } = this.formats[into]!;
    const up = Math.min(wordBits, Math.max(0, fraction + b.fraction - a.fraction));
    const at = a.fraction + up - b.fraction;
    const rounding = 2 ** -(at + 1) + (fraction < at ? this.half(into) : 0);
    const slopes = joined(a.slopes, 1 / b.x, b.slopes, -x / b.x);
    return this.made(x, first + second + rounding, slopes, into);
  }

  nearestWhole(a: Bounded, into: number): Bounded {
    const x = Math.round(a.x);
    const far = this.total(a);
    const e = Math.max(Math.round(a.x + far) - x, x - Math.round(a.x - far));
    // Halves go upward there and away from 0 here.
    const half = a.x - Math.floor(a.x) === 0.5 ? 1 : 0;
    return e + half === 0 ? this.word(x, x, into) : this.made(x, e + half, none, into);
  }

  moved(a: Bounded, into: number): Bounded {
    if (a.known !== null) return this.word(a.x, a.known, into);
    const isRounded = this.formats[into]!.fraction < a.fraction;
    return this.made(a.x, a.e + (isRounded ? this.half(into) : 0), a.slopes, into);
  }

  negative(a: Bounded): Bounded {
    return {
      ...a,
      x: -a.x,
      known: a.known === null ? null : -a.known,
      slopes: joined(a.slopes, -1, none, 0),
    };
  }

  orderOf(a: Bounded, b: Bounded): number {
    const order = Math.sign(a.x - b.x);
    if (a.known !== null && b.known !== null) {
      const known = Math.sign(a.known - b.known);
      return known === order || Number.isNaN(known) ? order : this.either(order, [known]);
    }
    const far = this.total(a) + this.total(b);
    if (Math.abs(a.x - b.x) > far || far === 0) return order;
    return this.either(order, order === 0 ? [-1, 1] : [-order]);
  }

  private either(order: number, others: readonly number[]): number {
    for (const other of others) if (this.open++ === this.flip) return other;
    return order;
  }

  private half(slot: number): number {
    return this.formats[slot]!.count / 2;
  }

  private word(x: number, known: number, slot: number): Bounded {
    const format = this.formats[slot]!;
    return {
      x,
      known: asWord(known, format),
      e: Math.abs(asWord(known, format) - x) || 0,
      slopes: none,
      fraction: format.fraction,
    };
  }

  private made(x: number, e: number, slopes: Slopes, into: number): Bounded {
    return { x, known: null, e, slopes, fraction: this.formats[into]!.fraction };
  }
}

/** Slopes of `f a + g b`. */
function joined(a: Slopes, f: number, b: Slopes, g: number): Slopes {
  if (a.length === 0 && b.length === 0) return none;
  const sum = new Map<number, number>();
  for (const [j, slope] of a) sum.set(j, f * slope);
  for (const [j, slope] of b) sum.set(j, (sum.get(j) ?? 0) + g * slope);
  return [...sum];
}
