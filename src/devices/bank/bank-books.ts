import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Banks } from './bank.ts';

/** Heat in the banks' resistance. */
export class BankBooks extends Books {
  private readonly banks: Banks;
  private readonly lost_J: Float64Array;

  constructor(banks: Banks) {
    super();
    this.banks = banks;
    this.lost_J = new Float64Array(banks.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, x1 } = ends;
    const { lost_J } = this;
    const { count, offset, resistance_ohm } = this.banks;
    for (let k = 0; k < count; k++) {
      const i = (x0[offset + k]! + x1[offset + k]!) / 2;
      lost_J[k]! += (p + q) * resistance_ohm[k]! * i * i;
    }
  }

  override accounts(): readonly Account[] {
    return [{ kind: 'loss', cause: 'resistance', owners: this.banks.names, energy_J: this.lost_J }];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { banks } = this;
    banks.names.forEach((name, k) => {
      put(`bank ${name}`, banks.energy_J(k, x));
    });
  }
}
