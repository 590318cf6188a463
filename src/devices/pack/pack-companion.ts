import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Packs } from './pack.ts';

/**
 * Packs stand behind their stage and follow from its end. A pack moves over minutes, a step is at most a millisecond:
 * predictor along the start's slope, one corrector. Packs that are asleep at both ends stay as they are.
 */
export class PackCompanion extends Companion {
  private readonly packs: Packs;

  constructor(packs: Packs) {
    super();
    this.packs = packs;
  }

  /** Nothing to prepare: no coefficient depends on the step. */
  override prepare(_q: number): void {}

  override begin(ends: Ends, _p: number, _q: number): void {
    const { packs } = this;
    const { count, offset } = packs;
    const { x0, dx0 } = ends;
    for (let k = 0; k < 3 * count; k++) dx0[offset + k] = 0;
    if (!packs.areAsleep(x0)) packs.flow(dx0, x0, ends.v0);
  }

  override finish(ends: Ends, p: number, q: number): void {
    const { packs } = this;
    const { count: n, offset: o, columns: c } = packs;
    const { x0, dx0, x1, v1 } = ends;
    for (let k = 0; k < n; k++) {
      x1[o + k] = x0[o + k]!;
      x1[o + n + k] = x0[o + n + k]!;
      x1[o + 2 * n + k] = x0[o + 2 * n + k]!;
    }
    if (packs.areAsleep(x0) && packs.areAsleep(x1)) return;
    for (let k = 0; k < n; k++) {
      const z = x0[o + k]! + (p + q) * dx0[o + k]!;
      const u = x0[o + n + k]! + (p + q) * dx0[o + n + k]!;
      const T = x0[o + 2 * n + k]! + (p + q) * dx0[o + 2 * n + k]!;
      const i = packs.current_A(k, packs.power_W(k, x1, v1), z, u);
      const R1 = c.polarisation_ohm[k]!;
      const heat = c.resistance_ohm[k]! * i * i + (u * u) / R1;
      x1[o + k] = x0[o + k]! + p * dx0[o + k]! - (q * i) / c.charge_C[k]!;
      x1[o + n + k] = x0[o + n + k]! + p * dx0[o + n + k]! + (q * (R1 * i - u)) / c.polarisation_time_s[k]!;
      x1[o + 2 * n + k] =
        x0[o + 2 * n + k]! +
        p * dx0[o + 2 * n + k]! +
        (q * (c.thermal_resistance_K_per_W[k]! * heat - (T - c.ambient_degC[k]!))) / c.thermal_time_s[k]!;
    }
  }
}
