import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Stages } from '../stage/stage.ts';
import type { Intakes } from './intake.ts';

/** What rectifier shelves take from the line, and lose in their AC stage and in the DC stage behind the bulk. */
export class IntakeBooks extends Books {
  private readonly intakes: Intakes;
  private readonly stages: Stages;
  private readonly input_J: Float64Array;
  private readonly acLost_J: Float64Array;
  private readonly dcLost_J: Float64Array;

  constructor(intakes: Intakes, stages: Stages) {
    super();
    this.intakes = intakes;
    this.stages = stages;
    this.input_J = new Float64Array(intakes.count);
    this.acLost_J = new Float64Array(intakes.count);
    this.dcLost_J = new Float64Array(intakes.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, v0, x1, v1 } = ends;
    const { intakes, input_J, acLost_J, dcLost_J } = this;
    const { node, offset: oStage } = this.stages;
    const { count, offset, dc0_W, dc1_W } = intakes;
    const { start, end } = intakes.ripple;
    const oPower = offset + 2 * count;
    for (let k = 0; k < count; k++) {
      const n = node[k]!;
      const out = ((p * x0[oStage + k]! + q * x1[oStage + k]!) * (v0[n]! + v1[n]!)) / 2;
      dcLost_J[k]! += p * dc0_W[k]! + q * dc1_W[k]! - out;
      const p0 = x0[oPower + k]!;
      const p1 = x1[oPower + k]!;
      const lost = p * intakes.acLoss_W(k, p0) + q * intakes.acLoss_W(k, p1);
      acLost_J[k]! += lost;
      input_J[k]! += p * p0 * start[k]! + q * p1 * end[k]! + lost;
    }
  }

  override accounts(): readonly Account[] {
    const { names: owners } = this.intakes;
    return [
      { kind: 'input', cause: 'AC', owners, energy_J: this.input_J },
      { kind: 'loss', cause: 'AC stage', owners, energy_J: this.acLost_J },
      { kind: 'loss', cause: 'DC stage', owners, energy_J: this.dcLost_J },
    ];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { names, offset, columns } = this.intakes;
    names.forEach((name, k) => {
      const u = x[offset + k]!;
      put(`bulk ${name}`, (columns.bulk_F[k]! * u * u) / 2);
    });
  }
}
