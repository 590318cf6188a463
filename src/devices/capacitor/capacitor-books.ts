import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Capacitors } from './capacitor.ts';

/** Heat in the capacitors' resistance. */
export class CapacitorBooks extends Books {
  private readonly capacitors: Capacitors;
  /** Square of the drop over the resistance, not yet divided by it [V² s]. */
  private readonly square: Float64Array;

  constructor(capacitors: Capacitors) {
    super();
    this.capacitors = capacitors;
    this.square = new Float64Array(capacitors.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, v0, x1, v1 } = ends;
    const { square } = this;
    const { count, offset, node } = this.capacitors;
    for (let k = 0; k < count; k++) {
      const n = node[k]!;
      const o = offset + k;
      const drop0 = v0[n]! - x0[o]!;
      const drop1 = v1[n]! - x1[o]!;
      square[k]! += (p * drop0 + q * drop1) * ((drop0 + drop1) / 2);
    }
  }

  override accounts(): readonly Account[] {
    const { names, esr_ohm } = this.capacitors;
    const energy_J = this.square.map((square, k) => square / esr_ohm[k]!);
    return [{ kind: 'loss', cause: 'resistance', owners: names, energy_J }];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    this.capacitors.names.forEach((name, k) => {
      put(`capacitor ${name}`, this.capacitors.energy_J(k, x));
    });
  }
}
