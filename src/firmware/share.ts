/**
 * Average current share between shelves.
 *
 * Every T_s, with samples T_d old: y_k = i_k/I_r, b = mean of y over the units on line, e_k = b − y_k,
 *   u_k ← clamp((1 − T_s/T_leak) u_k + K T_s deadband(e_k), ±U_max),   K = (R_d + R_line) I_r/τ_sh,
 * and the command is u_k rounded to its quantum (the memory keeps full resolution, or small errors would
 * never add up). The dead band is subtracted, so that the trim has no jump at its edge. Units that are
 * tripped, clamped, without AC, walking in or starting softly are left out of the mean and keep their trim.
 */
import type { Intakes } from '../devices/intake.ts';
import { type Stages, stageMode } from '../devices/stage.ts';
import type { ShareValues } from '../scenario/parameters/share.ts';
import { Signal } from './signal.ts';
import type { Plant, Task } from './task.ts';
import type { UserShare } from './user/user-share.ts';

/** Error beyond the dead band. */
function beyond(e: number, band: number): number {
  return e > band ? e - band : e < -band ? e + band : 0;
}

export class Share implements Task {
  readonly name = 'share';
  readonly signal: Signal;
  /** Trim memory of each shelf [V]. */
  readonly trim_V: Float64Array;
  /** A law of the user's own in place of the one above; its trims stand in `trim_V` all the same. */
  readonly law: UserShare | null;
  private readonly tick_s: number;
  /** Shelves that their guard keeps out while they start softly. */
  readonly starting: Uint8Array;
  private readonly values: ShareValues;
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly plant: Plant;
  private readonly gain_V_per_s: Float64Array;

  constructor(
    values: ShareValues,
    tick_s: number,
    stages: Stages,
    intakes: Intakes,
    plant: Plant,
    law: UserShare | null = null,
  ) {
    this.values = values;
    this.tick_s = tick_s;
    this.law = law;
    this.stages = stages;
    this.intakes = intakes;
    this.plant = plant;
    const n = intakes.count;
    this.trim_V = new Float64Array(n);
    this.starting = new Uint8Array(n);
    this.gain_V_per_s = Float64Array.from(
      { length: n },
      (_, k) =>
        ((stages.staticDroop_ohm(k) + values.path_resistance_ohm) * stages.columns.rated_A[k]!) /
        values.time_constant_s,
    );
    this.signal = new Signal(
      'shelf currents',
      n,
      Math.round(values.period_s / tick_s),
      Math.round(values.latency_s / tick_s),
      (out) => {
        for (let k = 0; k < n; k++) out[k] = plant.x[stages.offset + k]! / stages.columns.rated_A[k]!;
      },
    );
  }

  /** Takes part in sharing: running, unclamped, on AC, neither walking in nor starting softly. */
  isOnLine(k: number): boolean {
    const { intakes, plant, stages } = this;
    if (!stages.running[k] || !intakes.present[k] || this.starting[k]) return false;
    const mode = stages.mode[k]!;
    if (mode === stageMode.limit || mode === stageMode.zero || mode === stageMode.off) return false;
    return plant.x[intakes.offset + 3 * intakes.count + k]! >= intakes.columns.limit_W[k]!;
  }

  run(tick: number): number {
    const { values, trim_V, law } = this;
    const y = this.signal.read();
    if (law !== null) {
      trim_V.set(law.run(tick * this.tick_s, y, (k) => this.isOnLine(k)));
      return this.command();
    }
    let sum = 0;
    let count = 0;
    for (let k = 0; k < trim_V.length; k++) {
      if (!this.isOnLine(k)) continue;
      sum += y[k]!;
      count++;
    }
    const mean = count > 0 ? sum / count : 0;
    for (let k = 0; k < trim_V.length; k++) {
      if (!this.isOnLine(k)) continue;
      const u =
        (1 - values.period_s / values.leak_time_s) * trim_V[k]! +
        this.gain_V_per_s[k]! * values.period_s * beyond(mean - y[k]!, values.dead_band_ratio);
      const U = values.trim_limit_V;
      trim_V[k] = u > U ? U : u < -U ? -U : u;
    }
    return this.command();
  }

  /** Writes the quantised trims as commands. Returns how hard the largest change kicks: V K_p Δu/τ_i [W/s]. */
  private command(): number {
    const { stages } = this;
    const { proportional_A_per_V, currentLag_s } = stages.columns;
    const quantum = this.values.trim_quantum_V;
    let kick = 0;
    for (let k = 0; k < this.trim_V.length; k++) {
      const u = this.trim_V[k]!;
      const command = quantum > 0 ? Math.round(u / quantum) * quantum : u;
      const change = Math.abs(command - stages.trim_V[k]!);
      const slope = (change * proportional_A_per_V[k]! * stages.setPoint_V[k]!) / currentLag_s[k]!;
      if (slope > kick) kick = slope;
      stages.trim_V[k] = command;
    }
    return kick;
  }

  /** Trim at rest of shelf k at per-unit current y when the mean is b [V]: leakage against share. */
  restingTrim_V(k: number, y: number, b: number): number {
    if (this.law !== null) return this.law.restingTrim_V(k, y, b);
    const { leak_time_s, dead_band_ratio, trim_limit_V: U } = this.values;
    const u = leak_time_s * this.gain_V_per_s[k]! * beyond(b - y, dead_band_ratio);
    return u > U ? U : u < -U ? -U : u;
  }
}
