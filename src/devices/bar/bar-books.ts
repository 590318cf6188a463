import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import { type Bars, openingTime_s } from './bar.ts';

/** Heat of the bars, and of the arc of one that opens. */
export class BarBooks extends Books {
  private readonly bars: Bars;
  private readonly lost_J: Float64Array;

  constructor(bars: Bars) {
    super();
    this.bars = bars;
    this.lost_J = new Float64Array(bars.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, v0, x1, v1 } = ends;
    const { lost_J } = this;
    const { count, offset, from, to, open, resistance_ohm, inductance_H } = this.bars;
    for (let k = 0; k < count; k++) {
      const i = (x0[offset + k]! + x1[offset + k]!) / 2;
      if (open[k] === 1) {
        const a = from[k]!;
        const b = to[k]!;
        const across = (v0[a]! + v1[a]! - v0[b]! - v1[b]!) / 2;
        lost_J[k]! += (p + q) * i * (across + (inductance_H[k]! * i) / openingTime_s);
      } else lost_J[k]! += (p + q) * resistance_ohm[k]! * i * i;
    }
  }

  override accounts(): readonly Account[] {
    return [{ kind: 'loss', cause: 'bar', owners: this.bars.names, energy_J: this.lost_J }];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { names, offset, inductance_H } = this.bars;
    names.forEach((name, k) => {
      const i = x[offset + k]!;
      put(`bar ${name}`, (inductance_H[k]! * i * i) / 2);
    });
  }
}
