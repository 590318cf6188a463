import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Stages } from '../stage/stage.ts';
import type { Packs } from './pack.ts';

/** What battery shelves lose between the charge of their packs and the bus. */
export class PackBooks extends Books {
  private readonly packs: Packs;
  private readonly stages: Stages;
  /** What the charge gives up, less what reaches the bus; polarisation still holds a part of it. */
  private readonly less_J: Float64Array;
  /** Power out of the charge at the start of the step [W]. */
  private readonly past_W: Float64Array;
  /** Energy in the polarisation when the books began. */
  private readonly polarised0_J: Float64Array;

  constructor(packs: Packs, stages: Stages) {
    super();
    this.packs = packs;
    this.stages = stages;
    this.less_J = new Float64Array(packs.count);
    this.past_W = new Float64Array(packs.count);
    this.polarised0_J = new Float64Array(packs.count);
  }

  override start(x: Float64Array): void {
    for (let k = 0; k < this.packs.count; k++) this.polarised0_J[k] = this.polarised_J(k, x);
  }

  private polarised_J(k: number, x: Float64Array): number {
    const { packs } = this;
    return packs.polarised_J(k, x[packs.offset + packs.count + k]!);
  }

  override resume(x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.packs.count; k++) this.past_W[k] = this.packs.given_W(k, x, v);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, v0, x1, v1 } = ends;
    const { packs, less_J, past_W } = this;
    const { node, offset } = this.stages;
    for (let k = 0; k < packs.count; k++) {
      const s = packs.firstStage + k;
      const n = node[s]!;
      const taken = (p * x0[offset + s]! + q * x1[offset + s]!) * ((v0[n]! + v1[n]!) / 2);
      const given0 = past_W[k]!;
      const given1 = packs.given_W(k, x1, v1);
      past_W[k] = given1;
      less_J[k]! += p * given0 + q * given1 - taken;
    }
  }

  override accounts(x: Float64Array): readonly Account[] {
    const energy_J = this.less_J.map(
      (less_J, k) => less_J - (this.polarised_J(k, x) - this.polarised0_J[k]!),
    );
    return [{ kind: 'loss', cause: 'pack and converter', owners: this.packs.names, energy_J }];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { packs } = this;
    packs.names.forEach((name, k) => {
      put(`battery ${name}`, packs.energy_J(k, x[packs.offset + k]!));
      put(`polarisation ${name}`, this.polarised_J(k, x));
    });
  }
}
