/**
 * Packs: what stands behind a battery shelf's output stage.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | z state of charge | – | | E energy, η efficiency | J, – |
 *
 * Equation: dz/dt = −v i/(η E).
 * Not modelled here: open-circuit curve, R0, R1 C1, temperature, charging.
 */
import type { Device } from './device.ts';
import type { Stages } from './stage.ts';

export interface PackColumns {
  readonly names: readonly string[];
  readonly energy_J: Float64Array;
  readonly efficiency: Float64Array;
}

export class Packs implements Device {
  readonly kind = 'pack';
  readonly states: readonly string[] = ['charge_ratio'];
  readonly count: number;
  readonly names: readonly string[];
  readonly columns: PackColumns;
  readonly offset: number;
  private readonly stages: Stages;
  /** Stage of pack 0: battery shelves follow the rectifier shelves among the stages. */
  readonly firstStage: number;

  constructor(columns: PackColumns, stages: Stages, firstStage: number, offset: number) {
    this.count = columns.names.length;
    this.names = columns.names;
    this.columns = columns;
    this.stages = stages;
    this.firstStage = firstStage;
    this.offset = offset;
  }

  private slope_per_s(k: number, x: Float64Array, v: Float64Array): number {
    const s = this.firstStage + k;
    const power = v[this.stages.node[s]!]! * x[this.stages.offset + s]!;
    return -power / (this.columns.efficiency[k]! * this.columns.energy_J[k]!);
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) dx[this.offset + k] = this.slope_per_s(k, x, v);
  }

  /** Packs stand behind the stages: no current of their own. */
  inject(): void {}

  /** Nothing to prepare: the charge follows from both ends of the step. */
  prepare(): void {}

  finish(x1: Float64Array, x0: Float64Array, dx0: Float64Array, q: number, v1: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const o = this.offset + k;
      x1[o] = x0[o]! + q * (dx0[o]! + this.slope_per_s(k, x1, v1));
    }
  }
}
