import { Readout } from '../readout.ts';
import type { Banks } from './bank.ts';

export class BankReadout extends Readout {
  private readonly banks: Banks;

  constructor(banks: Banks) {
    super([{ kind: 'bank-current', quantity: 'current', unit: 'A', owners: banks.names }]);
    this.banks = banks;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { count, offset } = this.banks;
    const o = this.at[0]!;
    for (let k = 0; k < count; k++) out[o + k] = x[offset + k]!;
  }
}
