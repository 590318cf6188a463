import type { Int } from '../../base/int.ts';
import { Readout } from '../readout.ts';
import type { Bars } from './bar.ts';

/** Currents of the bars but for the sleds' contacts: a contact's current is its sled's. */
export class BarReadout extends Readout {
  private readonly bars: Bars;
  private readonly shown: Int32Array;
  private readonly shownCount: Int;

  /** `shown`: the bars that are no contacts. */
  constructor(bars: Bars, shown: Int32Array) {
    const owners = Array.from(shown, (k) => bars.names[k]!);
    super([{ kind: 'bar-current', quantity: 'current', unit: 'A', owners }]);
    this.bars = bars;
    this.shown = shown;
    this.shownCount = shown.length;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { at, shown, shownCount } = this;
    const { offset } = this.bars;
    const o = at[0]!;
    for (let k = 0; k < shownCount; k++) out[o + k] = x[offset + shown[k]!]!;
  }
}
