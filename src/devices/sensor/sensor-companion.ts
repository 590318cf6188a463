import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Sensor } from './sensor.ts';

/** s1 = (s0 + p ds0 + κ Σ)/(1 + κ), κ = 2π f_c q. */
export class SensorCompanion extends Companion {
  private readonly sensor: Sensor;
  private readonly kappa: Float64Array = new Float64Array(1);

  constructor(sensor: Sensor) {
    super();
    this.sensor = sensor;
  }

  override prepare(q: number): void {
    this.kappa[0] = q * this.sensor.corner_rad_per_s;
  }

  override begin(ends: Ends, _p: number, _q: number): void {
    this.sensor.flow(ends.dx0, ends.x0, ends.v0);
  }

  override finish(ends: Ends, p: number, _q: number): void {
    const { sensor } = this;
    const { x0, dx0, x1, v1 } = ends;
    const o = sensor.offset;
    const k = this.kappa[0]!;
    x1[o] = (x0[o]! + p * dx0[o]! + k * sensor.sources_W(x1, v1)) / (1 + k);
    x1[o + 1] = (x0[o + 1]! + p * dx0[o + 1]! + k * sensor.trays_W(x1, v1)) / (1 + k);
  }
}
