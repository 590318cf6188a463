import type { Account, Books } from '../books.ts';
import type { Capacitors } from './capacitor.ts';

/** Heat in the capacitors' resistance. */
export class CapacitorBooks implements Books {
  private readonly capacitors: Capacitors;
  /** Square of the drop over the resistance, not yet divided by it [V² s]. */
  private readonly square: Float64Array;

  constructor(capacitors: Capacitors) {
    this.capacitors = capacitors;
    this.square = new Float64Array(capacitors.count);
  }

  /** A step of h [s]. */
  take(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, v1: Float64Array): void {
    const { square } = this;
    const { count, offset, node } = this.capacitors;
    for (let k = 0; k < count; k++) {
      const n = node[k]!;
      const o = offset + k;
      const drop = (v0[n]! + v1[n]! - x0[o]! - x1[o]!) / 2;
      square[k]! += h * drop * drop;
    }
  }

  accounts(): readonly Account[] {
    const { names, esr_ohm } = this.capacitors;
    const energy_J = this.square.map((square, k) => square / esr_ohm[k]!);
    return [{ kind: 'loss', cause: 'resistance', owners: names, energy_J }];
  }

  stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    this.capacitors.names.forEach((name, k) => {
      put(`capacitor ${name}`, this.capacitors.energy_J(k, x));
    });
  }
}
