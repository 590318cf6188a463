import type { Int } from '../../base/int.ts';
import { Readout } from '../readout.ts';
import type { Stages } from './stage.ts';

/** Output currents of both kinds of shelves, and the trims of the rectifier shelves. */
export class StageReadout extends Readout {
  private readonly stages: Stages;
  private readonly shelfCount: Int;

  /** The first `shelfCount` stages are those of rectifier shelves. */
  constructor(stages: Stages, shelfCount: number) {
    const shelves = stages.names.slice(0, shelfCount);
    super([
      { kind: 'shelf-current', quantity: 'current', unit: 'A', owners: shelves },
      { kind: 'shelf-trim', quantity: 'trim', unit: 'V', owners: shelves },
      { kind: 'battery-current', quantity: 'current', unit: 'A', owners: stages.names.slice(shelfCount) },
    ]);
    this.stages = stages;
    this.shelfCount = shelfCount;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { at, shelfCount } = this;
    const { count, offset, trim_V } = this.stages;
    const oCurrent = at[0]!;
    const oTrim = at[1]!;
    const oBattery = at[2]!;
    for (let k = 0; k < shelfCount; k++) {
      out[oCurrent + k] = x[offset + k]!;
      out[oTrim + k] = trim_V[k]!;
    }
    for (let k = shelfCount; k < count; k++) out[oBattery + k - shelfCount] = x[offset + k]!;
  }
}
