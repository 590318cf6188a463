/**
 * The trays' measuring filter: sum of the sources' powers (rectifier and battery shelves) and sum of the trays'
 * powers, each through the same first-order filter before it is sampled. Batteries count as sources: with the
 * rectifiers held at their walk-in limit a sum without them would take the trays' own charging for a falling
 * load, and the group would run away into its limit.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | s filtered source power | W | | f_c corner | Hz |
 * | q filtered tray power | W | | | |
 *
 * Equations: ds/dt = 2π f_c (Σ v i − s);  dq/dt = 2π f_c (Σ p_bus − q).
 */
import { Device } from '../device.ts';
import type { Stages } from '../stage/stage.ts';
import type { Trays } from '../tray/tray.ts';

export class Sensor extends Device {
  readonly kind = 'sensor';
  readonly states: readonly string[] = ['sources_W', 'trays_W'];
  readonly words: readonly string[] = ['source filter', 'tray filter'];
  readonly corner_rad_per_s: number;
  private readonly stages: Stages;
  private readonly trays: Trays;

  constructor(corner_Hz: number, stages: Stages, trays: Trays, offset: number) {
    super(['tray sensor'], offset);
    this.corner_rad_per_s = 2 * Math.PI * corner_Hz;
    this.stages = stages;
    this.trays = trays;
  }

  /** Sum of all stages' output powers [W]. */
  sources_W(x: Float64Array, v: Float64Array): number {
    return this.stages.given_W(0, this.stages.count, x, v);
  }

  /** Sum of the trays' powers into the bus [W]. */
  trays_W(x: Float64Array, v: Float64Array): number {
    const { trays } = this;
    const { count, offset, node } = trays;
    let sum = 0;
    for (let k = 0; k < count; k++) sum += trays.delivered_W(k, x[offset + k]!, v[node[k]!]!);
    return sum;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    dx[this.offset] = this.corner_rad_per_s * (this.sources_W(x, v) - x[this.offset]!);
    dx[this.offset + 1] = this.corner_rad_per_s * (this.trays_W(x, v) - x[this.offset + 1]!);
  }

  override rest(x: Float64Array, v: Float64Array): void {
    x[this.offset] = this.sources_W(x, v);
    x[this.offset + 1] = this.trays_W(x, v);
  }
}
