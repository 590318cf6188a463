import { Readout } from '../readout.ts';
import type { Intakes } from './intake.ts';

/** Places among what intakes show. */
export const intakeShows = { bulk: 0, power: 1 } as const;

/** Bulk voltage and power from the line, of every rectifier shelf. */
export class IntakeReadout extends Readout {
  private readonly intakes: Intakes;

  constructor(intakes: Intakes) {
    super([
      { kind: 'shelf-bulk', quantity: 'bulk', unit: 'V', owners: intakes.names },
      { kind: 'shelf-ac-power', quantity: 'ac_power', unit: 'W', owners: intakes.names },
    ]);
    this.intakes = intakes;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { at, intakes } = this;
    const { count, offset } = intakes;
    const { end: pulsation } = intakes.ripple;
    const oBulk = at[intakeShows.bulk]!;
    const oPower = at[intakeShows.power]!;
    for (let k = 0; k < count; k++) {
      const p = x[offset + 2 * count + k]!;
      out[oBulk + k] = x[offset + k]!;
      out[oPower + k] = p * pulsation[k]! + intakes.acLoss_W(k, p);
    }
  }
}
