import type { Account, Books } from '../books.ts';
import { type Bars, openingTime_s } from './bar.ts';

/** Heat of the bars, and of the arc of one that opens. */
export class BarBooks implements Books {
  private readonly bars: Bars;
  private readonly lost_J: Float64Array;

  constructor(bars: Bars) {
    this.bars = bars;
    this.lost_J = new Float64Array(bars.count);
  }

  /** A step of h [s]. */
  take(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, v1: Float64Array): void {
    const { lost_J } = this;
    const { count, offset, from, to, open, resistance_ohm, inductance_H } = this.bars;
    for (let k = 0; k < count; k++) {
      const i = (x0[offset + k]! + x1[offset + k]!) / 2;
      if (open[k] === 1) {
        const a = from[k]!;
        const b = to[k]!;
        const across = (v0[a]! + v1[a]! - v0[b]! - v1[b]!) / 2;
        lost_J[k]! += h * i * (across + (inductance_H[k]! * i) / openingTime_s);
      } else lost_J[k]! += h * resistance_ohm[k]! * i * i;
    }
  }

  accounts(): readonly Account[] {
    return [{ kind: 'loss', cause: 'bar', owners: this.bars.names, energy_J: this.lost_J }];
  }

  stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { names, offset, inductance_H } = this.bars;
    names.forEach((name, k) => {
      const i = x[offset + k]!;
      put(`bar ${name}`, (inductance_H[k]! * i * i) / 2);
    });
  }
}
