/**
 * Packs: what stands behind a battery shelf's output stage; all its modules as one.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | z state of charge | – | | Q charge, η converter | C, – |
 * | v1 polarisation | V | | R0; R1, τ_1 = R1 C1 | Ω; Ω, s |
 * | T temperature | °C | | R_th, τ_th; T_a ambient | K/W, s; °C |
 *
 * Equations, with p = v i the power into the bus (negative while charging) and OCV(z) straight between its
 * points at z = 0, 0.1, 0.5, 0.9, 1:
 *   p_p = p/η when it gives, p η when it takes      U = OCV(z) − v1
 *   i_p = 2 p_p/(U + √(U² − 4 R0 p_p))              the upper root; without one i_p = 2 p_p/U (the firmware stops it)
 *   dz/dt = −i_p/Q      dv1/dt = (R1 i_p − v1)/τ_1
 *   dT/dt = (R_th (R0 i_p² + v1²/R1) − (T − T_a))/τ_th
 * Not modelled: hysteresis, change of R0 with charge and temperature, single modules and cells.
 */
import type { Int } from '../../base/int.ts';
import { Device } from '../device.ts';
import type { Stages } from '../stage/stage.ts';
import { packCurrent_A } from './pack-current.ts';

/** States of charge at which the open-circuit voltage is given. */
export const openCircuitPoints = [0, 0.1, 0.5, 0.9, 1] as const;

export interface PackColumns {
  readonly names: readonly string[];
  readonly charge_C: Float64Array;
  /** State of charge at the start. */
  readonly charge_ratio: Float64Array;
  readonly efficiency_ratio: Float64Array;
  /** Open-circuit voltages at `openCircuitPoints`, five for each pack one after the other [V]. */
  readonly openCircuit_V: Float64Array;
  readonly resistance_ohm: Float64Array;
  readonly polarisation_ohm: Float64Array;
  readonly polarisation_time_s: Float64Array;
  readonly thermal_resistance_K_per_W: Float64Array;
  readonly thermal_time_s: Float64Array;
  readonly ambient_degC: Float64Array;
}

export class Packs extends Device {
  readonly kind = 'pack';
  readonly states: readonly string[] = ['charge_ratio', 'polarisation_V', 'temperature_degC'];
  readonly words: readonly string[] = ['state of charge', 'polarisation', 'temperature'];
  readonly columns: PackColumns;
  private readonly stages: Stages;
  /** Stage of pack 0: battery shelves follow the rectifier shelves among the stages. */
  readonly firstStage: Int;

  constructor(columns: PackColumns, stages: Stages, firstStage: number, offset: number) {
    super(columns.names, offset);
    this.columns = columns;
    this.stages = stages;
    this.firstStage = firstStage;
  }

  /** Open-circuit voltage of pack k at charge z [V]; the end pieces go on straight. */
  openCircuit_V(k: Int, z: number): number {
    const at = this.columns.openCircuit_V;
    const o = 5 * k;
    if (z < 0.1) return at[o]! + (at[o + 1]! - at[o]!) * (z / 0.1);
    if (z < 0.5) return at[o + 1]! + (at[o + 2]! - at[o + 1]!) * ((z - 0.1) / 0.4);
    if (z < 0.9) return at[o + 2]! + (at[o + 3]! - at[o + 2]!) * ((z - 0.5) / 0.4);
    return at[o + 3]! + (at[o + 4]! - at[o + 3]!) * ((z - 0.9) / 0.1);
  }

  /** Energy between empty and charge z [J]: Q ∫ OCV dz. */
  energy_J(k: number, z: number): number {
    let sum = 0;
    for (let p = 1; p < openCircuitPoints.length; p++) {
      const a = openCircuitPoints[p - 1]!;
      const last = p === openCircuitPoints.length - 1;
      const b = last || z < openCircuitPoints[p]! ? z : openCircuitPoints[p]!;
      sum += ((b - a) * (this.openCircuit_V(k, a) + this.openCircuit_V(k, b))) / 2;
      if (z < openCircuitPoints[p]!) break;
    }
    return this.columns.charge_C[k]! * sum;
  }

  /** Power that shelf k gives to the bus [W], negative while it charges; below 0 V its current freewheels. */
  power_W(k: Int, x: Float64Array, v: Float64Array): number {
    const s = this.firstStage + k;
    const vs = v[this.stages.node[s]!]!;
    return (vs > 0 ? vs : 0) * x[this.stages.offset + s]!;
  }

  /** Current of pack k for power p into the bus [A], positive when it gives. */
  current_A(k: Int, p: number, z: number, v1: number): number {
    const c = this.columns;
    return packCurrent_A(p, c.efficiency_ratio[k]!, this.openCircuit_V(k, z) - v1, c.resistance_ohm[k]!);
  }

  /** Terminal voltage of pack k while it gives p [V]. */
  terminal_V(k: number, p: number, z: number, v1: number): number {
    return this.openCircuit_V(k, z) - v1 - this.columns.resistance_ohm[k]! * this.current_A(k, p, z, v1);
  }

  /** Most power that pack k can give to the bus [W], where the upper root ends: η U²/(4 R0). */
  most_W(k: number, z: number, v1: number): number {
    const c = this.columns;
    const U = this.openCircuit_V(k, z) - v1;
    return (c.efficiency_ratio[k]! * U * U) / (4 * c.resistance_ohm[k]!);
  }

  /** Power that the charge of pack k gives up, OCV(z) i_p [W]. */
  given_W(k: Int, x: Float64Array, v: Float64Array): number {
    const z = x[this.offset + k]!;
    const u = x[this.offset + this.count + k]!;
    return this.openCircuit_V(k, z) * this.current_A(k, this.power_W(k, x, v), z, u);
  }

  /** Energy in the polarisation of pack k at voltage u, C1 u²/2 [J]. */
  polarised_J(k: number, u: number): number {
    return ((this.columns.polarisation_time_s[k]! / this.columns.polarisation_ohm[k]!) * u * u) / 2;
  }

  /** Nothing moves: shelves without current at states x, and packs at rest there. */
  areAsleep(x: Float64Array): boolean {
    const { count: n, offset: o, firstStage } = this;
    const { ambient_degC } = this.columns;
    const { offset: oStage } = this.stages;
    for (let k = 0; k < n; k++) if (x[oStage + firstStage + k]! !== 0) return false;
    for (let k = 0; k < n; k++)
      if (x[o + n + k]! !== 0 || x[o + 2 * n + k]! !== ambient_degC[k]!) return false;
    return true;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count: n, offset: o, columns: c } = this;
    for (let k = 0; k < n; k++) {
      const v1 = x[o + n + k]!;
      const i = this.current_A(k, this.power_W(k, x, v), x[o + k]!, v1);
      const R1 = c.polarisation_ohm[k]!;
      const heat = c.resistance_ohm[k]! * i * i + (v1 * v1) / R1;
      dx[o + k] = -i / c.charge_C[k]!;
      dx[o + n + k] = (R1 * i - v1) / c.polarisation_time_s[k]!;
      dx[o + 2 * n + k] =
        (c.thermal_resistance_K_per_W[k]! * heat - (x[o + 2 * n + k]! - c.ambient_degC[k]!)) /
        c.thermal_time_s[k]!;
    }
  }

  /** Charged as they start, at ambient temperature. */
  override rest(x: Float64Array): void {
    const { count, offset, columns } = this;
    for (let k = 0; k < count; k++) {
      x[offset + k] = columns.charge_ratio[k]!;
      x[offset + count + k] = 0;
      x[offset + 2 * count + k] = columns.ambient_degC[k]!;
    }
  }
}
