/**
 * What an input stage can take from a line that sags, swells or has lost a phase. At its current limit the
 * power follows the line voltage; of single-phase modules spread over three phases a third go dark with one.
 *
 *   P_max(V) = P_max · min(1, V/V_nominal) · (2/3 with a phase lost)
 */
import type { Intakes } from '../devices/intake.ts';

const phaseLost_ratio = 2 / 3;

export class LineLevel {
  private readonly ratio: Float64Array;
  private readonly phases: Float64Array;
  private readonly nominal_V: Float64Array;
  private readonly intakes: Intakes;

  constructor(intakes: Intakes) {
    this.intakes = intakes;
    this.nominal_V = intakes.columns.lineVoltage_V.slice();
    this.ratio = new Float64Array(intakes.count).fill(1);
    this.phases = new Float64Array(intakes.count).fill(1);
  }

  /** Line voltage of shelf k over nominal. */
  set(k: number, ratio: number): void {
    this.ratio[k] = ratio;
    this.apply(k);
  }

  losePhase(k: number, lost: boolean): void {
    this.phases[k] = lost ? phaseLost_ratio : 1;
    this.apply(k);
  }

  private apply(k: number): void {
    const { columns, ceiling_W } = this.intakes;
    ceiling_W[k] = columns.limit_W[k]! * Math.min(1, this.ratio[k]!) * this.phases[k]!;
    columns.lineVoltage_V[k] = this.nominal_V[k]! * this.ratio[k]!;
  }
}
