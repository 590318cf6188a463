/** Stretches of one voltage beyond one limit, told apart by where straight lines between steps cross it. */
import type { Beyond } from './monitoring.ts';

/** A limit of the bus, absolute. */
export interface Bound {
  readonly limit: string;
  readonly side: 'lower' | 'upper';
  readonly level_V: number;
}

interface Stretch {
  readonly from_s: number;
  to_s: number;
  met: boolean;
}

export class BeyondMeter {
  private readonly bound: Bound;
  private readonly sign: number;
  private readonly stretches: Stretch[] = [];
  private open: Stretch | null = null;

  constructor(bound: Bound) {
    this.bound = bound;
    this.sign = bound.side === 'upper' ? 1 : -1;
  }

  private over(value: number): number {
    return this.sign * (value - this.bound.level_V);
  }

  /** The value went in a straight line from one moment to the next. */
  step(t0: number, v0: number, t1: number, v1: number): void {
    const [a, b] = [this.over(v0), this.over(v1)];
    if (this.open === null && b > 0) {
      const from_s = a >= 0 ? t0 : t0 + ((t1 - t0) * -a) / (b - a);
      this.open = { from_s, to_s: t1, met: false };
      this.stretches.push(this.open);
    }
    if (this.open === null) return;
    this.open.to_s = b > 0 ? t1 : a > b ? t0 + ((t1 - t0) * a) / (a - b) : t0;
    if (b <= 0) this.open = null;
  }

  /** A reading taken at `time_s` of the last `averaging_s`. */
  reading(time_s: number, value: number, averaging_s: number): void {
    if (!(this.over(value) > 0)) return;
    for (let k = this.stretches.length - 1; k >= 0; k--) {
      const stretch = this.stretches[k]!;
      if (stretch.to_s < time_s - averaging_s) return;
      if (stretch.from_s <= time_s) stretch.met = true;
    }
  }

  /** null: never beyond. */
  found(period_s: number, averaging_s: number): Beyond | null {
    const lengths = this.stretches.map(({ from_s, to_s }) => to_s - from_s);
    const count = lengths.length;
    if (count === 0) return null;
    let [longest, shortest, missed, chance, met] = [0, Number.POSITIVE_INFINITY, -1, 0, 0];
    lengths.forEach((length, k) => {
      longest = Math.max(longest, length);
      shortest = Math.min(shortest, length);
      chance += Math.min(1, length / period_s) / count;
      if (this.stretches[k]!.met) met++;
      else missed = Math.max(missed, length);
    });
    return {
      ...this.bound,
      count,
      met_count: met,
      longest_s: longest,
      shortest_s: shortest,
      longest_missed_s: missed < 0 ? null : missed,
      met_by_chance_ratio: averaging_s > 0 ? null : chance,
    };
  }
}
